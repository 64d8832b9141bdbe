/*
 * The measured oxygen of a loop at a point, whatever the model was told to take.
 * Must not judge it.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REVIEW_SCENE_MEASURED_H
#define PLM_REVIEW_SCENE_MEASURED_H

#include "review/scene/scene.h"

/*
 * [bar] median of the cells, else the logged PO2, of this sample or the last one within rules->gap_s before; NaN where
 * there is none, or the diver is off the loop.
 */
double plmi_review_measured_bar(const struct plm_review_scene *scene, size_t point);

/* [bar] the set point as far as the depth allows it; NaN off the loop or where none is in force. */
double plmi_review_setpoint_bar(const struct plm_review_scene *scene, size_t point);

/* [bar] largest difference between known cells; NaN with fewer than two, or off the loop. */
double plmi_review_cells_spread_bar(const struct plm_review_scene *scene, size_t point);

#endif
