/*
 * The view's tissue loading, and decompression owed and done. Must not compute what the trace and the decompression
 * hold.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "base/number.h"
#include "report/view/build.h"

/* What a dive carries in: the compartment with most inert gas, as a share of what it holds at rest; nothing where it
 * starts at rest. */
static void carried_add(struct plmi_view *view, const struct plmi_view_from *from)
{
    const struct plm_start *start = &from->debriefed->start;
    const struct plm_rules *rules = from->rules;
    struct plm_tissue rest =
        plm_tissue_saturated(from->assumed->surface_bar, rules->water_vapour_bar, rules->air_n2_frac);
    double most = (double)NAN, he_bar = (double)NAN;
    int fullest = 0;
    for (int i = 0; start->residual && i < PLM_COMPARTMENTS; i++) {
        double share = (start->tissue.n2_bar[i] + start->tissue.he_bar[i]) / rest.n2_bar[i];
        fullest = i == 0 || share > most ? i + 1 : fullest;
        most = fmax(most, share);
        he_bar = fmax(he_bar, start->tissue.he_bar[i]);
    }
    plmi_view_add_number(view, PLMI_VIEW_LOADING, "start_load_pct", "gas at the start, of that at rest", most * 100, 0,
                         "%");
    plmi_view_add_number(view, PLMI_VIEW_LOADING, "start_compartment", "its compartment",
                         fullest > 0 ? fullest : (double)NAN, 0, "");
    plmi_view_add_number(view, PLMI_VIEW_LOADING, "start_he_bar", "most helium at the start", he_bar, 2, "bar");
}

void plmi_view_add_loading(struct plmi_view *view, const struct plmi_view_from *from)
{
    const enum plmi_view_section loading = PLMI_VIEW_LOADING;
    const struct plm_trace_summary *summary = from->summary;
    carried_add(view, from);
    plmi_view_add_number(view, loading, "surfacing_gradient_pct", "surfacing gradient", summary->surfacing_gradient_pct,
                         1, "%");
    plmi_view_add_number(view, loading, "surfacing_compartment", "its compartment",
                         summary->surfacing_leading > 0 ? summary->surfacing_leading : (double)NAN, 0, "");
    plmi_view_add_number(view, loading, "peak_gradient_pct", "peak gradient", summary->peak_gradient_pct, 1, "%");
    plmi_view_add_duration(view, loading, "peak_at_s", "at", summary->peak_at_s);
    plmi_view_add_number(view, loading, "peak_depth_m", "at depth", summary->peak_depth_m, 1, "m");
    plmi_view_add_number(view, loading, "leading_compartment", "its compartment", summary->peak_leading, 0, "");
    plmi_view_add_number(view, loading, "min_clearance_m", "least water under the ceiling", summary->min_clearance_m, 2,
                         "m");
    plmi_view_add_duration(view, loading, "min_clearance_at_s", "at", summary->min_clearance_at_s);
    plmi_view_add_number(view, loading, "deepest_ceiling_m", "deepest ceiling", summary->deepest_ceiling_m, 1, "m");
}

/* Where no decompression was found. */
static const struct plm_decompression unknown = {
    .bottom_end_s = NAN,
    .bottom_end_depth_m = NAN,
    .tts_s = NAN,
    .owed_s = NAN,
    .done_s = NAN,
    .way_s = NAN,
    .left_owing_s = NAN,
    .cleared_s = NAN,
    .ascent_s = NAN,
    .deco_cost_min_per_min = NAN,
    .bailout_tts_s = NAN,
    .achieved_gf_high_pct = NAN,
    .achieved_gf_low_pct = NAN,
};

static void stops_add(struct plmi_view *view, const struct plm_decompression *found)
{
    if (found->stop_count == 0 || !found->required) {
        return;
    }
    view->stops = plmi_view_room(view, (size_t)found->stop_count, sizeof *view->stops);
    if (view->stops == NULL) {
        return;
    }
    for (size_t i = 0; i < found->stop_count; i++) {
        const struct plm_stop *stop = &found->stops[i];
        view->stops[view->stop_count++] = (struct plmi_view_stop){
            .depth_m = stop->depth_m,
            .owed_min = stop->owed_s / 60,
            .done_min = stop->done_s / 60,
            .difference_min = (stop->done_s - stop->owed_s) / 60,
        };
    }
}

/* "115.0 to 22.3 m, 7.9 to 6.1 m"; NULL where there are none. */
static const char *depths_text(struct plmi_view *view, const struct plm_uncovered *uncovered)
{
    struct plmi_text text;
    plmi_text_init(&text);
    for (int i = 0; i < uncovered->count; i++) {
        plmi_text_puts(&text, i > 0 ? ", " : "");
        plmi_number_fixed(&text, uncovered->depths[i].from_m, 1);
        plmi_text_puts(&text, " to ");
        plmi_view_number_write(&text, uncovered->depths[i].to_m, 1, "m");
    }
    if (uncovered->count > 0) {
        return plmi_view_keep_text(view, &text);
    }
    plmi_text_free(&text);
    return NULL;
}

/* Depths at which no mix is within its oxygen limits: how the schedule of an open-circuit dive got past them, and why a
 * loop has no bail-out time. */
static void open_circuit_add(struct plmi_view *view, const struct plm_decompression *found)
{
    const enum plmi_view_section section = PLMI_VIEW_DECOMPRESSION;
    plmi_view_add_text(view, section, "beyond_limits_depths", "no mix within its oxygen limits",
                       depths_text(view, &found->beyond_limits));
    plmi_view_add_duration(view, section, "bailout_tts_s", "owed on open-circuit bail-out",
                           found->bailout ? found->bailout_tts_s : (double)NAN);
    plmi_view_add_text(view, section, "bailout_gap_depths", "no carried mix within its oxygen limits",
                       depths_text(view, &found->bailout_gaps));
}

/* Why a dive has no gradient factors that it achieved, as a percentage of nothing tells nothing; NULL where it has. */
static const char *achieved_nothing(const struct plmi_view_from *from, const struct plm_decompression *found)
{
    if (found->owed_s <= 0 && from->summary->deepest_ceiling_m <= 0) {
        return "the model asked for no stop";
    }
    return found->achieved_gf_high_pct < 0
               ? "none: no compartment held more inert gas than the surface pressure at the end"
               : NULL;
}

static void achieved_add(struct plmi_view *view, const struct plmi_view_from *from,
                         const struct plm_decompression *found)
{
    const enum plmi_view_section section = PLMI_VIEW_DECOMPRESSION;
    bool surfaced = !isnan(found->achieved_gf_high_pct);
    const char *none = surfaced ? achieved_nothing(from, found) : NULL;
    plmi_view_add_number(view, section, "achieved_gf_low_pct", "achieved gradient low",
                         none == NULL ? found->achieved_gf_low_pct : (double)NAN, 0, "%");
    plmi_view_add_number(view, section, "achieved_gf_high_pct", "achieved gradient high",
                         none == NULL ? found->achieved_gf_high_pct : (double)NAN, 1, "%");
    if (surfaced && none == NULL && isnan(found->achieved_gf_low_pct)) {
        none = "none: there is no low with which the dive would have stayed below every ceiling";
    }
    plmi_view_add_text(view, section, "achieved_none", "no gradient achieved", none);
}

/* Whether the ceiling had cleared when the diver left for the surface, and by how much or how long not. */
static void state_write(struct plmi_text *out, const struct plmi_view_from *from, const struct plm_decompression *found)
{
    double owing_s = found->left_owing_s;
    if (from->summary->ends_in_water) {
        plmi_text_puts(out, "not known: the record ends in the water, with ");
        if (owing_s > 0) {
            plmi_view_number_write(out, owing_s / 60, 1, "min");
            plmi_text_puts(out, " of stops still required");
        } else {
            plmi_text_puts(out, "no stop required there");
        }
    } else if (!found->required) {
        plmi_text_puts(out, "no stops required by the model");
    } else if (isinf(owing_s)) {
        plmi_text_puts(out, "surfaced under a ceiling that never clears on the mixes known");
    } else if (owing_s > 0) {
        plmi_text_puts(out, "surfaced ");
        plmi_view_number_write(out, owing_s / 60, 1, "min");
        plmi_text_puts(out, " of stops before the ceiling cleared");
    } else if (isnan(found->cleared_s)) {
        plmi_text_puts(out, "no ceiling by the model at any time");
    } else {
        plmi_text_puts(out, "the ceiling cleared ");
        plmi_view_duration_write(out, found->cleared_s);
        plmi_text_puts(out, " before surfacing");
    }
}

static void state_add(struct plmi_view *view, const struct plmi_view_from *from, const struct plm_decompression *found)
{
    const enum plmi_view_section section = PLMI_VIEW_DECOMPRESSION;
    struct plmi_text text;
    plmi_text_init(&text);
    if (view->decompression_known) {
        state_write(&text, from, found);
    }
    plmi_view_add_text(view, section, "ceiling_state", "the ceiling on surfacing",
                       view->decompression_known ? plmi_view_keep_text(view, &text) : NULL);
    plmi_view_add_number(view, section, "left_owing_min", "stops still required on surfacing", found->left_owing_s / 60,
                         1, "min");
    plmi_view_add_duration(view, section, "cleared_s", "ceiling cleared before surfacing", found->cleared_s);
}

void plmi_view_add_decompression(struct plmi_view *view, const struct plmi_view_from *from)
{
    const enum plmi_view_section section = PLMI_VIEW_DECOMPRESSION;
    const struct plm_decompression *found = from->debriefed->decompression;
    view->decompression_known = found != NULL;
    if (found == NULL) {
        found = &unknown;
    }
    const bool compared = found->required || isnan(found->done_s);
    const double done_s = compared ? found->done_s : 0, way_s = compared ? found->way_s : 0;
    state_add(view, from, found);
    plmi_view_add_duration(view, section, "bottom_end_s", "bottom left at", found->bottom_end_s);
    plmi_view_add_number(view, section, "bottom_end_depth_m", "from depth", found->bottom_end_depth_m, 1, "m");
    plmi_view_add_number(view, section, "owed_min", "owed over stops", found->owed_s / 60, 1, "min");
    plmi_view_add_number(view, section, "done_min", "done over stops", done_s / 60, 1, "min");
    plmi_view_add_number(view, section, "way_min", "of done, the way from stop to stop", way_s / 60, 1, "min");
    plmi_view_add_number(view, section, "difference_min", "done less owed", (done_s - found->owed_s) / 60, 1, "min");
    plmi_view_add_duration(view, section, "tts_s", "owed to the surface with travel", found->tts_s);
    plmi_view_add_duration(view, section, "ascent_s", "taken to the surface", found->ascent_s);
    plmi_view_add_number(view, section, "deco_cost_min_per_min", "cost of one more minute",
                         found->deco_cost_min_per_min, 1, "min");
    open_circuit_add(view, found);
    achieved_add(view, from, found);
    stops_add(view, found);
}
