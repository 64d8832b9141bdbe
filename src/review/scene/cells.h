/*
 * The oxygen cells of a loop one by one: what the others read, and whether a cell moved with them.
 * Must not say which cell was right.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REVIEW_SCENE_CELLS_H
#define PLM_REVIEW_SCENE_CELLS_H

#include "review/scene/scene.h"

/* [bar] median of the known cells but for one; NaN where there is none, or off the loop. cell: [from 1], 0: of all. */
double plmi_review_others_bar(const struct plm_review_scene *scene, size_t point, int cell);

/* The known cell furthest from the median of the others, from 1; 0 with fewer than three known. */
int plmi_review_odd_cell(const struct plm_review_scene *scene, size_t point);

/* A stretch over which a cell stayed where it was while the others moved. */
struct plmi_review_still {
    bool found;
    bool limited;       /* before or behind it the cell moved, and never gave more than here */
    size_t first, last; /* points */
    double bar;         /* the most that it read there */
    double others_low_bar, others_high_bar;
};

/*
 * The longest such stretch of a cell, of 3 min at least: it read the same to within 0.05 bar, and all others moved
 * together by 0.2 bar or more; or one other and the set point did after the first minute. The last minute does not
 * count for the others, as a cell that is slow follows later. Conventions; a cell that lags by half a minute and has
 * the noise of a good one is never still. cell  [from 1]
 */
struct plmi_review_still plmi_review_still_find(const struct plm_review_scene *scene, int cell);

#endif
