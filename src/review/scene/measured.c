/*
 * The measured oxygen of a loop at a point.
 * Must not judge it.
 * SPDX-License-Identifier: MIT
 */
#include "review/scene/measured.h"

#include <math.h>

#include "replay/loop.h"

double plmi_review_measured_bar(const struct plm_review_scene *scene, size_t point)
{
    double now_s = plmi_review_time_s(scene, point);
    for (size_t i = point;; i--) {
        if (plmi_review_setting(scene, i)->mode == PLM_MODE_OPEN ||
            now_s - plmi_review_time_s(scene, i) > scene->rules->gap_s) {
            return NAN;
        }
        double cells_bar = plmi_cells_median(scene->samples[i].cell_bar);
        double bar = isnan(cells_bar) ? scene->samples[i].po2_bar : cells_bar;
        if (!isnan(bar) || i == 0) {
            return bar;
        }
    }
}

double plmi_review_setpoint_bar(const struct plm_review_scene *scene, size_t point)
{
    const struct plm_setting *setting = plmi_review_setting(scene, point);
    if (setting->mode != PLM_MODE_CLOSED || isnan(setting->setpoint_bar)) {
        return NAN;
    }
    return fmin(setting->setpoint_bar, scene->points[point].ambient_bar);
}

double plmi_review_cells_spread_bar(const struct plm_review_scene *scene, size_t point)
{
    if (plmi_review_setting(scene, point)->mode == PLM_MODE_OPEN) {
        return NAN;
    }
    double low = NAN, high = NAN;
    int known = 0;
    for (int i = 0; i < PLM_CELLS; i++) {
        double bar = scene->samples[point].cell_bar[i];
        known += !isnan(bar);
        low = fmin(low, bar);
        high = fmax(high, bar);
    }
    return known >= 2 ? high - low : (double)NAN;
}
