/*
 * The view's oxygen: both clocks side by side, doses, extremes, and minutes by band of pressure.
 * Must not judge; limits belong to the reviewers.
 * SPDX-License-Identifier: MIT
 */
#include "report/view/build.h"
#include "tissue/oxygen.h"

static const double band_limits_bar[PLM_PO2_BANDS] = {1.0, 1.2, 1.3, 1.4, 1.5, 1.6};

/* Told as "at 1.3" between these. */
#define AT_1_3_LEAST_BAR 1.25
#define AT_1_3_MOST_BAR  1.35

/* Minutes with the inspired oxygen at 1.3 bar, for the guideline that speaks of it alone. */
static double minutes_at_1_3(const struct plm_trace *trace)
{
    size_t count;
    const struct plm_point *points = plm_trace_points(trace, &count);
    double minutes = 0;
    for (size_t i = 1; i < count; i++) {
        double dt_min = (double)(points[i].time_ms - points[i - 1].time_ms) / 60e3;
        if (dt_min <= 0) {
            continue;
        }
        minutes += plmi_minutes_above(points[i - 1].po2_bar, points[i].po2_bar, dt_min, AT_1_3_LEAST_BAR);
        minutes -= plmi_minutes_above(points[i - 1].po2_bar, points[i].po2_bar, dt_min, AT_1_3_MOST_BAR);
    }
    return minutes > 0 ? minutes : 0;
}

/* A clock; minutes above the table are counted at its last row, so that it is the least that it can be. */
static void clock_add(struct plmi_view *view, double beyond_min, const char *key, const char *label, double percent)
{
    plmi_view_add_number(view, PLMI_VIEW_OXYGEN, key, label, percent, 1, "%");
    view->items[view->item_count - 1].at_least = beyond_min > 0;
}

void plmi_view_add_oxygen(struct plmi_view *view, const struct plmi_view_from *from)
{
    const enum plmi_view_section oxygen = PLMI_VIEW_OXYGEN;
    const struct plm_trace_summary *summary = from->summary;
    double carried_min = from->debriefed->start.cns_beyond_min;
    clock_add(view, carried_min + summary->cns_beyond_min, "cns_pct", "CNS, single exposure", summary->cns_pct);
    clock_add(view, summary->cns_beyond_min, "cns_day_pct", "CNS, 24 hours", summary->cns_day_pct);
    plmi_view_add_number(view, oxygen, "cns_beyond_min", "above the table of limits", summary->cns_beyond_min, 1,
                         "min");
    plmi_view_add_number(view, oxygen, "cns_beyond_bar", "which is above",
                         plmi_oxygen_row_bar[PLMI_OXYGEN_ROWS - 1] + from->rules->cns_beyond_bar, 2, "bar");
    plmi_view_add_number(view, oxygen, "cns_beyond_before_min", "above the table in the 24 hours before", carried_min,
                         1, "min");
    plmi_view_add_number(view, oxygen, "otu", "oxygen tolerance units", summary->otu, 0, "OTU");
    plmi_view_add_number(view, oxygen, "esot", "ESOT", summary->esot, 0, "");
    plmi_view_add_number(view, oxygen, "max_po2_bar", "highest", summary->max_po2_bar, 2, "bar");
    plmi_view_add_duration(view, oxygen, "max_po2_at_s", "at", summary->max_po2_at_s);
    plmi_view_add_number(view, oxygen, "min_po2_bar", "lowest", summary->min_po2_bar, 2, "bar");
    plmi_view_add_duration(view, oxygen, "min_po2_at_s", "at", summary->min_po2_at_s);
    plmi_view_add_number(view, oxygen, "at_1_3_min", "at 1.25 to 1.35 bar", minutes_at_1_3(from->debriefed->trace), 1,
                         "min");
    for (int i = 0; i < PLM_PO2_BANDS; i++) {
        view->bands[i] = (struct plmi_view_band){band_limits_bar[i], summary->po2_band_min[i]};
    }
}
