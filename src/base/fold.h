/*
 * Folding: a sink that hands on the first 20 diagnostics of each id and counts the others. Must not look at their text.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_BASE_FOLD_H
#define PLM_BASE_FOLD_H

#include <plimsoll/diag.h>

/* The diagnostics of one input, folded. Tell into &fold.sink; a fold stays where it was made. */
struct plmi_fold {
    struct plm_diag_sink sink;
    const struct plm_diag_sink *to; /* borrowed, may be NULL */
    const char *file;               /* borrowed; of the notes */
    long seen[PLM_DIAG_COUNT];
};

void plmi_fold_init(struct plmi_fold *fold, const struct plm_diag_sink *to, const char *file);
/* One note for each id that had more than 20: how many more there were. */
void plmi_fold_finish(struct plmi_fold *fold);

#endif
