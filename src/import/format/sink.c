/*
 * Diagnostics of a planned dive, handed on to those of its file without notes.
 * SPDX-License-Identifier: MIT
 */
#include "import/format/sink.h"

#include "base/diags.h"

static void pass_warnings(void *context, const struct plm_diag *diag)
{
    if (diag->level != PLM_LEVEL_NOTE) {
        plmi_diag_pass(context, diag);
    }
}

struct plm_diag_sink plmi_format_quiet_sink(const struct plm_diag_sink *to)
{
    return (struct plm_diag_sink){pass_warnings, (void *)to};
}
