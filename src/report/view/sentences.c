/*
 * A table: the figures of a dive shown in sentences. Must not hold a figure itself.
 * SPDX-License-Identifier: MIT
 */
#include "report/view/sentences.h"

#include <math.h>

static const struct plmi_sentence loading[] = {
    {"At the start", "start_load_pct",
     "{start_from}: compartment {start_compartment} still held {start_load_pct} of what it holds at rest; CNS "
     "{start_cns_pct}",
     PLMI_WHEN_KNOWN},
    {"At the surface", "surfacing_gradient_pct",
     "{surfacing_gradient_pct} of the M-value gradient, compartment {surfacing_compartment}", PLMI_WHEN_POSITIVE},
    {"At the surface", "surfacing_gradient_pct", "no compartment held more inert gas than the surface pressure",
     PLMI_WHEN_NEGATIVE},
    {"At the surface", "ends_in_water_m", "not known: the record ends in the water, at {ends_in_water_m}",
     PLMI_WHEN_KNOWN},
    {"Highest", "peak_gradient_pct",
     "{peak_gradient_pct} at {peak_at_s}, {peak_depth_m}, compartment {leading_compartment}", PLMI_WHEN_POSITIVE},
    {"Deepest ceiling", "deepest_ceiling_m", "{deepest_ceiling_m}", PLMI_WHEN_ABOVE_ZERO},
    {"Deepest ceiling", "deepest_ceiling_m", "none: the surface was open throughout", PLMI_WHEN_ZERO},
    {"Nearest to ceiling", "min_clearance_m", "{min_clearance_m} below it, at {min_clearance_at_s}",
     PLMI_WHEN_POSITIVE},
    {"Nearest to ceiling", "min_clearance_m", "{min_clearance_m}: above it, at {min_clearance_at_s}",
     PLMI_WHEN_NEGATIVE},
    {"Gradients achieved", "achieved_gf_low_pct",
     "{achieved_gf_low_pct} low, {achieved_gf_high_pct} high: the most cautious gradient factors by which the dive "
     "breaks no ceiling",
     PLMI_WHEN_KNOWN},
    {"Gradients achieved", "achieved_none", "{achieved_none}", PLMI_WHEN_KNOWN},
};

static const struct plmi_sentence decompression[] = {
    {"On surfacing", "ceiling_state", "{ceiling_state}", PLMI_WHEN_KNOWN},
    {"Bottom left", "bottom_end_s", "at {bottom_end_s} from {bottom_end_depth_m}", PLMI_WHEN_KNOWN},
    {"Required then", "owed_min", "{owed_min} of stops; {tts_s} to the surface, travel included", PLMI_WHEN_ABOVE_ZERO},
    {"Done since", "done_min", "{done_min} at these stops", PLMI_WHEN_ABOVE_ZERO},
    {"To the surface", "ascent_s", "{ascent_s}, from leaving the bottom", PLMI_WHEN_KNOWN},
    {"To the surface", "ends_in_water_m", "not known: the record ends at {ends_in_water_m}", PLMI_WHEN_KNOWN},
    {"Of that", "way_min", "{way_min} are travel between stops; what was required is waiting alone",
     PLMI_WHEN_ABOVE_ZERO},
    {"One more minute", "deco_cost_min_per_min", "there would have cost {deco_cost_min_per_min} more of decompression",
     PLMI_WHEN_KNOWN},
    {"Beyond limits", "beyond_limits_depths",
     "{beyond_limits_depths}: no mix known is within its oxygen limits there; the stops are computed with the mix that "
     "was breathed when the bottom was left",
     PLMI_WHEN_KNOWN},
    {"On bail-out", "bailout_tts_s",
     "{bailout_tts_s} to the surface, had the loop been left there for the open-circuit mixes carried",
     PLMI_WHEN_KNOWN},
    {"On bail-out", "bailout_gap_depths",
     "no time is given: from {bailout_gap_depths} no open-circuit mix carried is within its oxygen limits",
     PLMI_WHEN_KNOWN},
    {"Last ascent", "from_3_m_s",
     "last at 10 m {from_10_m_s} before the surface (no deeper than {surface_depth_m}), at 6 m {from_6_m_s}, at 3 m "
     "{from_3_m_s} (min:s); fastest between two samples {fastest_step_m_min}, to {fastest_step_at_s}: shown, not "
     "judged",
     PLMI_WHEN_KNOWN},
};

static const struct plmi_sentence oxygen[] = {
    {"CNS clock", "cns_pct", "{cns_pct} of a single exposure, {cns_day_pct} of 24 hours", PLMI_WHEN_KNOWN},
    {"Above the table", "cns_beyond_min",
     "{cns_beyond_min} above {cns_beyond_bar} of oxygen, {max_po2_bar} at the most; no limit is published above 1.6 "
     "bar, "
     "and the clocks count them at that row",
     PLMI_WHEN_ABOVE_ZERO},
    {"Before the dive", "cns_beyond_before_min",
     "{cns_beyond_before_min} above the table in the 24 hours before: the clock that was carried in is at least so "
     "much",
     PLMI_WHEN_ABOVE_ZERO},
    {"Dose", "otu", "{otu}; ESOT {esot}", PLMI_WHEN_KNOWN},
    {"Oxygen pressure", "max_po2_bar",
     "lowest {min_po2_bar} at {min_po2_at_s}, highest {max_po2_bar} at {max_po2_at_s}", PLMI_WHEN_KNOWN},
};

static const struct plmi_sentence oxygen_aside[] = {
    {"At 1.3 bar", "at_1_3_min",
     "{at_1_3_min} at 1.25 to 1.35 bar. For information: a guideline of 2025 (Hoyt et al.) accepts at 1.3 alone "
     "240 min of work with 240 min of resting decompression",
     PLMI_WHEN_ABOVE_ZERO},
};

static const struct plmi_sentence gas[] = {
    {"Density", "max_density_g_l", "{max_density_g_l} at the most, at {max_density_at_s}", PLMI_WHEN_KNOWN},
    {"Dense gas", "density_note_min", "{density_note_min} above {density_note_g_l}", PLMI_WHEN_ABOVE_ZERO},
    {"Dense gas", "density_caution_min", "{density_caution_min} above {density_caution_g_l}", PLMI_WHEN_ABOVE_ZERO},
    {"Narcotic depth", "max_end_m", "{max_end_m} at the most", PLMI_WHEN_ABOVE_ZERO},
};

static const struct plmi_sentence assumed[] = {
    {"Model", "model", "{model}, gradient factors {gf_low_pct} low, {gf_high_pct} high", PLMI_WHEN_KNOWN},
    {"At the start", "start_from", "{start_from}; CNS {start_cns_pct}", PLMI_WHEN_KNOWN},
    {"Surface pressure", "surface_bar", "{surface_bar} ({surface_from})", PLMI_WHEN_KNOWN},
    {"Depth shown by", "water_kg_m3", "{water_kg_m3} ({water_from})", PLMI_WHEN_KNOWN},
    {"Depth noise", "depth_noise_m", "{depth_noise_m} ({depth_noise_from}): swell, breath and the recorder's steps",
     PLMI_WHEN_KNOWN},
    {"Oxygen pressure", "oxygen_from", "{oxygen_from}", PLMI_WHEN_KNOWN},
    {"Schedules", "stop_step_m",
     "stops every {stop_step_m}, the last at {last_stop_m}, ascent {schedule_rate_m_min}, stop mixes to "
     "{deco_po2_max_bar} of oxygen",
     PLMI_WHEN_KNOWN},
    {"Schedules, shallow", "schedule_shallow_band_m",
     "from {schedule_shallow_band_m} up at {schedule_shallow_rate_m_min}", PLMI_WHEN_ABOVE_ZERO},
    {"Tolerance", "tolerance_depth_m",
     "of the recorder: half its step, at least {tolerance_depth_m}, and {tolerance_depth_pct} of depth",
     PLMI_WHEN_KNOWN},
    {"End", "ends_in_water_m",
     "the record ends in the water, at {ends_in_water_m}; nothing is taken for what came after", PLMI_WHEN_KNOWN},
    {"Changes alone", "change_m",
     "the recorder seems to write a sample only when depth has changed by {change_m} or more; between two "
     "samples depth is taken as constant but for that change, as a straight line",
     PLMI_WHEN_KNOWN},
    {"Samples dropped", "samples_dropped_are", "{samples_dropped_are}: no diver can have been there", PLMI_WHEN_KNOWN},
    {"Samples doubtful", "samples_doubtful_are", "{samples_doubtful_are}: a single sample each, taken as recorded",
     PLMI_WHEN_KNOWN},
    {"Log", "samples", "{samples} samples, read as {format}", PLMI_WHEN_KNOWN},
    {"SHA-256", "sha256", "{sha256}", PLMI_WHEN_KNOWN},
};

#define GROUP(list)                        \
    {                                      \
        list, sizeof list / sizeof list[0] \
    }

const struct plmi_sentence *plmi_sentences(enum plmi_sentence_group group, size_t *count)
{
    static const struct {
        const struct plmi_sentence *list;
        size_t count;
    } groups[PLMI_SENTENCES_GROUPS] = {GROUP(loading),      GROUP(decompression), GROUP(oxygen),
                                       GROUP(oxygen_aside), GROUP(gas),           GROUP(assumed)};
    *count = groups[group].count;
    return groups[group].list;
}

bool plmi_sentence_shown(const struct plmi_view *view, const struct plmi_sentence *sentence)
{
    const struct plmi_view_item *item = plmi_view_find(view, sentence->known);
    switch (sentence->when) {
    case PLMI_WHEN_NEGATIVE: return item->value < 0;
    case PLMI_WHEN_POSITIVE: return item->value >= 0;
    case PLMI_WHEN_ABOVE_ZERO: return item->value >= 0.5 * pow(10, -item->digits);
    case PLMI_WHEN_ZERO: return fabs(item->value) <= 0;
    case PLMI_WHEN_KNOWN: break;
    }
    if (item->style == PLMI_VIEW_TEXT) {
        return item->text != NULL;
    }
    return item->style == PLMI_VIEW_FLAG ? item->value > 0 : !isnan(item->value);
}
