/*
 * What was understood of a log, row by row, for every report that tells it. Must not judge the log.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REPORT_VIEW_VERDICT_H
#define PLM_REPORT_VIEW_VERDICT_H

#include <plimsoll/verdict.h>

#include "base/text.h"

/* The words of a report for what is no fact of the log. */
struct plmi_verdict_words {
    const char *format, *column; /* labels of rows; the number of a column follows */
    const char *guessed;         /* behind the number of a column that was guessed */
};

/* Takes one row; evidence "" where there is none. */
typedef void plmi_verdict_take(void *to, const char *label, const char *found, const char *evidence);

/* Hands format, facts and columns to take, in this order. A lack of memory shows in out. */
void plmi_verdict_rows(const struct plm_verdict *verdict, const struct plmi_verdict_words *words,
                       plmi_verdict_take *take, void *to, struct plmi_text *out);

#endif
