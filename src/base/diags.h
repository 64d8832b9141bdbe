/*
 * Telling: a diagnostic with its place, as text that may be shown, into a sink. Must not count or keep any.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_BASE_DIAGS_H
#define PLM_BASE_DIAGS_H

#include <plimsoll/diag.h>
#include <plimsoll/status.h>

#include "base/text.h"

/* Where the diagnostics of one input go. Both are borrowed; sink may be NULL: then nothing is reported. */
struct plmi_diags {
    const struct plm_diag_sink *sink;
    const char *file; /* put into each place */
};

void plmi_diags_init(struct plmi_diags *diags, const struct plm_diag_sink *sink, const char *file);
void plmi_diags_add(const struct plmi_diags *diags, enum plm_level level, enum plm_diag_id id, long line, long column,
                    const char *format, ...) PLMI_PRINTF(6, 7);
/* The same with the arguments in a list. */
void plmi_diags_add_list(const struct plmi_diags *diags, enum plm_level level, enum plm_diag_id id, long line,
                         long column, const char *format, va_list arguments) PLMI_PRINTF(6, 0);
/*
 * The error of memory that ran out: "no memory" and what it was for.
 * Returns: MEMORY.
 */
enum plm_status plmi_diags_no_memory(const struct plmi_diags *diags, long line, const char *what_for, ...)
    PLMI_PRINTF(3, 4);
/* Hands a diagnostic on as it is; sink may be NULL. */
void plmi_diag_pass(const struct plm_diag_sink *sink, const struct plm_diag *diag);

#endif
