/*
 * Diagnostics of dives, handed on to those of their file.
 * SPDX-License-Identifier: MIT
 */
#include "import/format/sink.h"

static void pass_on(void *context, const struct plm_diag *diag)
{
    plmi_diags_add(context, diag->level, diag->id, diag->place.line, diag->place.column, "%s", diag->text);
}

struct plm_diag_sink plmi_format_sink(struct plmi_diags *diags)
{
    return (struct plm_diag_sink){pass_on, diags};
}

static void pass_warnings(void *context, const struct plm_diag *diag)
{
    if (diag->level != PLM_LEVEL_NOTE) {
        pass_on(context, diag);
    }
}

struct plm_diag_sink plmi_format_quiet_sink(struct plmi_diags *diags)
{
    return (struct plm_diag_sink){pass_warnings, diags};
}
