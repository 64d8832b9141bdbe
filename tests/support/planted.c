/*
 * One body in the water, seen by recorders whose faults are known.
 * SPDX-License-Identifier: MIT
 */
#include "support/planted.h"

#include <math.h>

#include "support/made_dive.h"

double planted_depth_m(int body, double true_s)
{
    static const double times_s[] = {0, 240, 1800, 2040, 2400, 2460, 3300, 3340, 5400, PLANTED_END_S};
    static const double depths_m[] = {0, 60, 60, 24, 24, 12, 12, 6, 6, 0};
    size_t i = 0;
    if (!(true_s > 0 && true_s < PLANTED_END_S)) {
        return 0;
    }
    while (true_s > times_s[i + 1]) {
        i++;
    }
    double level_m =
        depths_m[i] + (depths_m[i + 1] - depths_m[i]) * (true_s - times_s[i]) / (times_s[i + 1] - times_s[i]);
    double turn = 6.283185307179586 * true_s;
    double own_m = 0.3 * sin(turn / (97.0 + 11 * body)) + 0.2 * sin(turn / (163.0 + 17 * body) + body);
    return level_m < 2 ? level_m : level_m + own_m;
}

static void sample_add(struct made_dive *made, const struct planted *p, double own_s, double true_s)
{
    struct plm_sample sample = made_blank(own_s, 0);
    double depth_m = planted_depth_m(p->body, true_s) * (1 - p->less_frac) - p->less_m;
    double again_s = p->wrong_again_s > 0 ? true_s - p->wrong_again_s : -1;
    if ((true_s >= p->wrong_from_s && true_s < p->wrong_to_s) ||
        (again_s >= p->wrong_from_s && again_s < p->wrong_to_s)) {
        depth_m += p->wrong_m;
    }
    sample.depth_m = fmax(0, round(100 * depth_m) / 100);
    for (int i = 0; i < 3 && p->cells; i++) {
        sample.cell_bar[i] = 1.3;
    }
    made_add(made, &sample);
}

struct plm_dive *planted_record(const struct planted *p)
{
    struct made_dive made = made_start(p->surface_bar > 0 ? p->surface_bar : (double)NAN);
    struct plm_dive_info *info = plm_dive_builder_info(made.builder);
    double step_s = p->step_s > 0 ? p->step_s : 1, end_s = p->end_s > 0 ? p->end_s : PLANTED_END_S + 40;
    info->recorder = plm_dive_builder_text(made.builder, p->recorder);
    info->diver = plm_dive_builder_text(made.builder, p->diver);
    info->start = (struct plm_stamp){.local_ms = PLANTED_ZERO_UTC_MS + llround(1000 * (p->begin_s - p->behind_s)) +
                                                 (p->has_zone ? INT64_C(60000) * p->offset_min : 0),
                                     .offset_min = p->has_zone ? p->offset_min : 0,
                                     .known = true,
                                     .has_clock = true,
                                     .has_zone = p->has_zone};
    made_loop(&made, 0.12, 0.6, 1.3);
    for (long k = 0;; k++) {
        double own_s = (double)k * step_s, true_s = p->begin_s + own_s / (1 + p->fast_ppm * 1e-6);
        if (true_s > end_s) {
            break;
        }
        made_setpoint(&made, true_s < p->low_until_s ? 0.7 : 1.3);
        if (!(true_s > p->gap_from_s && true_s < p->gap_to_s)) {
            sample_add(&made, p, own_s, true_s);
        }
    }
    return made_finish(&made);
}
