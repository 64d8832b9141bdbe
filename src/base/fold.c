/*
 * Repeats of one kind of diagnostic are counted instead of reported. Must not format or change what it hands on.
 * SPDX-License-Identifier: MIT
 */
#include "base/fold.h"

#include "base/diags.h"

enum { FOLD_AFTER = 20 };

static void count_or_pass(void *context, const struct plm_diag *diag)
{
    struct plmi_fold *fold = context;
    fold->seen[diag->id]++;
    if (fold->seen[diag->id] > FOLD_AFTER) {
        return;
    }
    plmi_diag_pass(fold->to, diag);
}

void plmi_fold_init(struct plmi_fold *fold, const struct plm_diag_sink *to, const char *file)
{
    *fold = (struct plmi_fold){.sink = {count_or_pass, fold}, .to = to, .file = file};
}

void plmi_fold_finish(struct plmi_fold *fold)
{
    const struct plmi_diags notes = {fold->to, fold->file};
    for (int id = 0; id < PLM_DIAG_COUNT; id++) {
        long more = fold->seen[id] - FOLD_AFTER;
        if (more > 0) {
            plmi_diags_add(&notes, PLM_LEVEL_NOTE, PLM_DIAG_FOLDED, 0, 0, "%ld more of [%s] not shown", more,
                           plm_diag_id_text((enum plm_diag_id)id));
            fold->seen[id] = FOLD_AFTER;
        }
    }
}
