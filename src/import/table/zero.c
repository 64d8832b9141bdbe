/*
 * Where the surface of a record lies: seen from its own stretches at the surface, taken off only on demand.
 * SPDX-License-Identifier: MIT
 */
#include "import/table/zero.h"

#include <math.h>

#include "base/figure.h"

/* Readings this near [m] to the least belong to the surface; so many make a stretch of it. */
#define NEAR_M          0.45
#define READINGS_NEEDED 5
/* Less than this [m] off is how recorders are. */
#define QUIET_M 0.4

/* The least depth of the head [m], and the mean of the readings near it with their number. */
struct surface {
    double least_m, mean_m;
    size_t readings;
};

static struct surface surface_of(const struct plmi_table_plan *plan, const struct plmi_column *column, double near_m)
{
    struct surface surface = {(double)NAN, 0, 0};
    for (size_t i = plan->head.data; i < plan->head.count; i++) {
        surface.least_m = fmin(surface.least_m, plmi_plan_row_depth_m(plan, column, i));
    }
    double sum_m = 0;
    for (size_t i = plan->head.data; i < plan->head.count; i++) {
        double depth_m = plmi_plan_row_depth_m(plan, column, i);
        if (depth_m <= surface.least_m + near_m) {
            sum_m += depth_m;
            surface.readings++;
        }
    }
    surface.mean_m = surface.readings > 0 ? sum_m / (double)surface.readings : (double)NAN;
    return surface;
}

void plmi_plan_zero(struct plmi_table_plan *plan, const struct plm_import_options *options, struct plmi_diags *diags)
{
    const struct plmi_column *depth = plmi_plan_depth_column(plan);
    struct surface surface = surface_of(plan, depth, NEAR_M);
    if (surface.least_m < -QUIET_M) {
        surface = surface_of(plan, depth, 2 * NEAR_M + 0.2); /* waves make it wide */
    }
    bool off = fabs(surface.mean_m) > QUIET_M && fabs(surface.mean_m) <= options->rules->zero_offset_max_m + NEAR_M;
    if (!off || surface.readings < READINGS_NEEDED) {
        if (options->zero_auto) {
            plmi_plan_fact(plan, "Surface reading", "right", "no stretch at the surface is off by more than 0.4 m");
        }
        return;
    }
    plan->zero_m = nearbyint(surface.mean_m * 1000) / 1000; /* so that a reading taken off itself is zero */
    plan->zero_applied = options->zero_auto;
    const char *found = plmi_plan_text(plan, "%s m", plmi_figure(surface.mean_m, 1).text);
    const char *why = plmi_plan_text(plan, "%zu of the first rows lie at the least depth, %s m", surface.readings,
                                     plmi_figure(surface.least_m, 1).text);
    plmi_plan_fact(plan, "Surface reading", found, why);
    plmi_diags_add(diags, options->zero_auto ? PLM_LEVEL_NOTE : PLM_LEVEL_WARNING, PLM_DIAG_ZERO_OFFSET, 0, 0,
                   "the surface reads about %s (%s); %s", found, why,
                   options->zero_auto ? "taken off every depth"
                                      : "depths are taken as recorded (--zero auto takes it off)");
}
