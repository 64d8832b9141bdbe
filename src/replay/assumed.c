/*
 * What a replay took for granted, in words.
 * Must not change what was computed.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "replay/assumed.h"
#include "replay/loop.h"

static void start_name(struct plm_trace *trace)
{
    const struct plm_start *start = &trace->start;
    char *text = trace->start_text;
    size_t size = sizeof trace->start_text;
    double interval_s = start->surface_interval_s;
    if (isfinite(interval_s) && interval_s >= 0.0 && interval_s < 1e9) {
        long minutes = lround(interval_s / 60.0);
        snprintf(text, size, "carried from %s, surface interval %ld h %02ld min", start->from, minutes / 60,
                 minutes % 60);
    } else {
        snprintf(text, size, "carried from %s", start->from);
    }
    trace->assumed.start_from = text;
}

void plmi_start_settle(struct plm_trace *trace, const struct plm_start *start, const struct plm_rules *rules)
{
    struct plm_assumed *assumed = &trace->assumed;
    if (start == NULL || !start->residual) {
        memset(&trace->start, 0, sizeof trace->start);
        trace->start.tissue = plm_tissue_saturated(assumed->surface_bar, rules->water_vapour_bar, rules->air_n2_frac);
        trace->start.anchor_bar = trace->start.surface_interval_s = (double)NAN;
        assumed->start_from = "saturated with air at the surface";
    } else {
        trace->start = *start;
        const char *from = start->from != NULL ? start->from : "an earlier dive";
        snprintf(trace->start_from, sizeof trace->start_from, "%s", from);
        trace->start.from = trace->start_from;
        start_name(trace);
    }
    assumed->surface_interval_s = trace->start.surface_interval_s;
    assumed->start_cns_pct = trace->start.cns_pct;
}

/* The sources of oxygen in words, in the order of their worth. */
static void oxygen_name(struct plm_trace *trace, unsigned used)
{
    static const struct {
        unsigned bit;
        const char *word;
    } words[] = {
        {PLMI_OXYGEN_OPEN, "open circuit"},
        {PLMI_OXYGEN_CELLS, "measured cells"},
        {PLMI_OXYGEN_LOGGED, "logged PO2"},
        {PLMI_OXYGEN_SETPOINT, "set point"},
        {PLMI_OXYGEN_DILUENT, "diluent as open circuit"},
        {PLMI_OXYGEN_SUPPLY, "supply mix as open circuit"},
        {PLMI_OXYGEN_ALONE, "diluent of oxygen alone"},
    };
    size_t length = 0;
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++) {
        if ((used & words[i].bit) != 0) {
            int n = snprintf(trace->oxygen_text + length, sizeof trace->oxygen_text - length, "%s%s",
                             length > 0 ? ", " : "", words[i].word);
            length += n > 0 ? (size_t)n : 0;
        }
    }
    trace->assumed.oxygen_from = length > 0 ? trace->oxygen_text : "nothing breathed";
}

void plmi_assumed_settle(struct plm_trace *trace, const struct plm_dive_info *info, const struct plm_rules *rules,
                         unsigned oxygen_used, struct plmi_diags *diags)
{
    struct plm_assumed *assumed = &trace->assumed;
    assumed->model = plm_zhl16_get(rules->model)->name;
    assumed->gf_low_pct = rules->gf_low_pct;
    assumed->gf_high_pct = rules->gf_high_pct;
    assumed->gas_assumed = !info->gas_known;
    assumed->semiclosed_assumed = (oxygen_used & PLMI_OXYGEN_SUPPLY) != 0;
    assumed->oxygen_alone = (oxygen_used & PLMI_OXYGEN_ALONE) != 0;
    oxygen_name(trace, oxygen_used);
    if (assumed->semiclosed_assumed) {
        plmi_diags_add(diags, PLM_LEVEL_WARNING, PLM_DIAG_OXYGEN_ASSUMED, (long)info->line, 0,
                       "semi-closed without measured PO2: the supply mix is taken as on open circuit; "
                       "the loop holds less oxygen than that");
    }
    if (assumed->oxygen_alone) {
        plmi_diags_add(diags, PLM_LEVEL_WARNING, PLM_DIAG_OXYGEN_ASSUMED, (long)info->line, 0,
                       "a loop whose diluent is pure oxygen: it is taken to hold oxygen alone; its set point and its "
                       "measured PO2 are left aside");
    }
    if ((oxygen_used & PLMI_OXYGEN_DILUENT) != 0) {
        plmi_diags_add(diags, PLM_LEVEL_WARNING, PLM_DIAG_OXYGEN_ASSUMED, (long)info->line, 0,
                       "closed loop without set point or measured PO2: the diluent is taken as on "
                       "open circuit");
    }
}
