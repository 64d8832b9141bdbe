/*
 * Reporting into a sink: formats the text, counts levels, folds repeats of one id after 20.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_BASE_DIAGS_H
#define PLM_BASE_DIAGS_H

#include <plimsoll/diag.h>

#include "base/text.h"

/* One run's diagnostics. sink is borrowed and may be NULL. Use plmi_diags_finish to tell what was folded. */
struct plmi_diags {
    const struct plm_diag_sink *sink;
    const char *file; /* borrowed; put into each place */
    long seen[PLM_DIAG_COUNT];
    long warnings, errors;
};

void plmi_diags_init(struct plmi_diags *diags, const struct plm_diag_sink *sink, const char *file);
void plmi_diags_add(struct plmi_diags *diags, enum plm_level level, enum plm_diag_id id, long line, long column,
                    const char *format, ...) PLMI_PRINTF(6, 7);
/* One note for each id that had more than 20: how many more there were. */
void plmi_diags_finish(struct plmi_diags *diags);

#endif
