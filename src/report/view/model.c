/*
 * The view's model: everything that was assumed, so that a figure can be had again. Must not leave an assumption out.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "report/view/build.h"

static void rules_add(struct plmi_view *view, const struct plm_rules *rules)
{
    const enum plmi_view_section model = PLMI_VIEW_MODEL;
    plmi_view_add_number(view, model, "stop_step_m", "distance between stops", rules->stop_step_m, 1, "m");
    plmi_view_add_number(view, model, "last_stop_m", "last stop", rules->last_stop_m, 1, "m");
    plmi_view_add_number(view, model, "schedule_rate_m_min", "ascent in schedules", rules->schedule_rate_m_min, 1,
                         "m/min");
    plmi_view_add_number(view, model, "schedule_shallow_rate_m_min", "ascent in schedules, shallow",
                         rules->schedule_shallow_rate_m_min, 1, "m/min");
    plmi_view_add_number(view, model, "schedule_shallow_band_m", "its band, from the surface to",
                         rules->schedule_shallow_band_m, 1, "m");
    plmi_view_add_number(view, model, "deco_po2_max_bar", "oxygen limit of stop mixes", rules->deco_po2_max_bar, 2,
                         "bar");
    plmi_view_add_number(view, model, "surface_depth_m", "at the surface no deeper than", rules->surface_depth_m, 1,
                         "m");
    plmi_view_add_number(view, model, "ascent_window_s", "window of ascent rates", rules->ascent_window_s, 0, "s");
    plmi_view_add_number(view, model, "tolerance_depth_m", "least depth tolerance", rules->tolerance_depth_m, 2, "m");
    plmi_view_add_number(view, model, "tolerance_depth_pct", "depth tolerance", rules->tolerance_depth_pct, 2, "%");
}

/* Whole percents are shown as such. */
static int percent_digits(double percent)
{
    return fabs(percent - round(percent)) < 0.005 ? 0 : 2;
}

void plmi_view_add_model(struct plmi_view *view, const struct plmi_view_from *from)
{
    const enum plmi_view_section model = PLMI_VIEW_MODEL;
    const struct plm_assumed *assumed = from->assumed;
    plmi_view_add_text(view, model, "model", "model", assumed->model);
    plmi_view_add_number(view, model, "gf_low_pct", "gradient factor low", assumed->gf_low_pct,
                         percent_digits(assumed->gf_low_pct), "%");
    plmi_view_add_number(view, model, "gf_high_pct", "gradient factor high", assumed->gf_high_pct,
                         percent_digits(assumed->gf_high_pct), "%");
    plmi_view_add_text(view, model, "gf_from", "gradient factors from",
                       plm_factors_from_text(from->debriefed->factors_from));
    plmi_view_add_number(view, model, "surface_bar", "surface pressure", assumed->surface_bar, 5, "bar");
    plmi_view_add_text(view, model, "surface_from", "surface pressure from", assumed->surface_from);
    plmi_view_add_number(view, model, "water_kg_m3", "depth shown by", assumed->water_kg_m3, 1, "kg/m3");
    plmi_view_add_text(view, model, "water_from", "density from", assumed->water_from);
    plmi_view_add_number(view, model, "depth_noise_m", "depth noise", assumed->depth_noise_m, 2, "m");
    plmi_view_add_text(view, model, "depth_noise_from", "depth noise from", assumed->depth_noise_from);
    plmi_view_add_text(view, model, "start_from", "start of the dive", assumed->start_from);
    plmi_view_add_duration(view, model, "surface_interval_s", "surface interval", assumed->surface_interval_s);
    plmi_view_add_number(view, model, "start_cns_pct", "CNS at the start", assumed->start_cns_pct, 1, "%");
    view->items[view->item_count - 1].at_least = from->debriefed->start.cns_beyond_min > 0;
    plmi_view_add_text(view, model, "oxygen_from", "oxygen pressure from", assumed->oxygen_from);
    plmi_view_add_flag(view, model, "gas_assumed", "air for want of any gas", assumed->gas_assumed);
    plmi_view_add_flag(view, model, "mode_assumed", "breathing mode for want of any", !from->info->mode_known);
    plmi_view_add_flag(view, model, "semiclosed_assumed", "semi-closed as open circuit", assumed->semiclosed_assumed);
    plmi_view_add_flag(view, model, "oxygen_alone_assumed", "loop of oxygen alone", assumed->oxygen_alone);
    rules_add(view, from->rules);
}
