/*
 * The limits of what a source states of a whole dive. Must not know who stated it.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include <plimsoll/gas.h>

#include "base/figure.h"
#include "dive/stated.h"

/* No recorder shows depth in coarser steps [m]. */
#define STEP_MOST_M 10.0
/* Seconds between rows: times are whole milliseconds, and slower than once an hour nobody records a dive. */
#define SAMPLING_LEAST_S 0.001
#define SAMPLING_MOST_S  3600.0

static const struct {
    const char *what, *unit;
    double least, most;
    int digits;
    const char *range;
} LIMITS[] = {
    [PLMI_TOLD_SURFACE] = {"a surface pressure", "bar", PLM_SURFACE_LEAST_BAR, PLM_SURFACE_MOST_BAR, 3, "0.4 to 1.2"},
    [PLMI_TOLD_ALTITUDE] = {"an altitude", "m", PLM_ALTITUDE_LEAST_M, PLM_ALTITUDE_MOST_M, 0, "-500 to 9000"},
    [PLMI_TOLD_WATER] = {"a density", "kg/m3", PLM_WATER_LEAST_KG_M3, PLM_WATER_MOST_KG_M3, 0, "900 to 1100"},
    [PLMI_TOLD_STEP] = {"a step of depths", "m", 0, STEP_MOST_M, 3, "0 to 10"},
    [PLMI_TOLD_FACTOR] = {"a gradient factor", "%", 1, 100, 0, "1 to 100"},
    [PLMI_TOLD_INTERVAL] = {"a surface interval", "s", 0, (double)INFINITY, 0, "0 and more"},
    [PLMI_TOLD_SAMPLING] = {"a sample interval", "s", SAMPLING_LEAST_S, SAMPLING_MOST_S, 3, "0.001 to 3600"},
};

bool plmi_stated_possible(enum plmi_stated what, double value)
{
    return value >= LIMITS[what].least && value <= LIMITS[what].most;
}

double plmi_stated_settle(enum plmi_stated what, double value, struct plmi_diags *diags, long line)
{
    if (isnan(value) || plmi_stated_possible(what, value)) {
        return value;
    }
    plmi_diags_add(diags, PLM_LEVEL_WARNING, PLM_DIAG_RANGE, line, 0, "%s of %s %s is not within %s; it is left aside",
                   LIMITS[what].what, plmi_figure(value, LIMITS[what].digits).text, LIMITS[what].unit,
                   LIMITS[what].range);
    return (double)NAN;
}
