/*
 * Which surface pressure and which water a replay goes by.
 * Must not compute with them.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <stdio.h>

#include "replay/surroundings.h"

/* [bar] the least that an altitude can tell: 0.307 bar at 9000 m. A pressure reported is narrower, and was looked at
 * where it was reported. */
static const double surface_least_bar = 0.3;

static void by_altitude(struct plm_trace *trace, double altitude_m, const char *whose)
{
    trace->assumed.surface_bar = plm_standard_atmosphere_bar(altitude_m);
    snprintf(trace->surface_text, sizeof trace->surface_text, "altitude %ld m%s",
             isnan(altitude_m) ? 0L : lround(altitude_m), whose);
    trace->assumed.surface_from = trace->surface_text;
}

static void surface_find(struct plm_trace *trace, const struct plm_dive_info *info,
                         const struct plm_replay_options *options, struct plmi_diags *diags)
{
    struct plm_assumed *assumed = &trace->assumed;
    if (!isnan(info->surface_bar)) {
        assumed->surface_bar = info->surface_bar;
        assumed->surface_from = "log";
        if (!isnan(options->surface_bar) || !isnan(options->altitude_m)) {
            plmi_diags_add(diags, PLM_LEVEL_NOTE, PLM_DIAG_PRESSURE, (long)info->line, 0,
                           "the log tells the surface pressure; the one asked for is left aside");
        }
    } else if (!isnan(options->surface_bar)) {
        assumed->surface_bar = options->surface_bar;
        assumed->surface_from = "command line";
    } else if (!isnan(options->altitude_m)) {
        by_altitude(trace, options->altitude_m, "");
    } else if (!isnan(info->altitude_m)) {
        by_altitude(trace, info->altitude_m, " by the log");
    } else {
        assumed->surface_bar = options->rules->surface_default_bar;
        assumed->surface_from = "standard";
    }
}

static void water_find(struct plm_assumed *assumed, const struct plm_dive_info *info,
                       const struct plm_replay_options *options)
{
    if (!isnan(options->water_kg_m3)) {
        assumed->water_kg_m3 = options->water_kg_m3;
        assumed->water_from = "command line";
    } else if (!isnan(info->water_kg_m3)) {
        assumed->water_kg_m3 = info->water_kg_m3;
        assumed->water_from = "log";
    } else {
        assumed->water_kg_m3 = options->rules->water_kg_m3;
        assumed->water_from = "rule";
    }
}

enum plm_status plmi_surroundings_find(struct plm_trace *trace, const struct plm_dive_info *info,
                                       const struct plm_replay_options *options, struct plmi_diags *diags)
{
    struct plm_assumed *assumed = &trace->assumed;
    surface_find(trace, info, options, diags);
    water_find(assumed, info, options);
    if (!(assumed->surface_bar >= surface_least_bar && assumed->surface_bar <= PLM_SURFACE_MOST_BAR)) {
        plmi_diags_add(diags, PLM_LEVEL_ERROR, PLM_DIAG_PRESSURE, (long)info->line, 0,
                       "the surface pressure (%s) cannot be; the dive is not replayed", assumed->surface_from);
        return PLM_STATUS_INPUT;
    }
    if (!(assumed->water_kg_m3 >= PLM_WATER_LEAST_KG_M3 && assumed->water_kg_m3 <= PLM_WATER_MOST_KG_M3)) {
        plmi_diags_add(diags, PLM_LEVEL_ERROR, PLM_DIAG_RANGE, (long)info->line, 0,
                       "the density of the water (%s) cannot be; the dive is not replayed", assumed->water_from);
        return PLM_STATUS_INPUT;
    }
    return PLM_STATUS_OK;
}
