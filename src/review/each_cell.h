/*
 * What a dive comes to by each oxygen cell of its loop alone.
 * Must not choose a cell.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REVIEW_EACH_CELL_H
#define PLM_REVIEW_EACH_CELL_H

#include "review/scene/list.h"
#include "review/scene/scene.h"

struct plmi_each_cell {
    struct plm_cell_figures items[PLM_CELLS];
    size_t count;
};

/*
 * Where the findings tell that cells disagree: replays the dive by each cell that read anything, once each, fills in
 * its figures, and marks findings of oxygen and of the ceiling that do not stand, as bad as told, by each of those that
 * moved. Nothing else is changed.
 * Returns: OK, or what a replay came to.
 */
enum plm_status plmi_review_each_cell(struct plmi_each_cell *out, const struct plm_review_scene *scene,
                                      const struct plm_review_options *options, struct plm_finding_list *list);

#endif
