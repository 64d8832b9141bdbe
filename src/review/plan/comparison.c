/*
 * The table planned / done / difference and its sentence.
 * Must not judge: the plan's reviewers do.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <stdlib.h>

#include "review/plan/comparison.h"
#include "review/scene/owed.h"

struct plm_plan_comparison {
    struct plm_review_plan plan;
    struct plmi_review_rows rows;
    const char *verdict, *assumed;
};

static void figures(struct plmi_review_rows *rows, const struct plmi_review_sides *sides)
{
    const struct plm_review_scene *plan = sides->plan, *dive = sides->dive;
    const struct plmi_review_phases *planned = &sides->planned, *done = &sides->done;
    plmi_review_row(rows, "greatest depth", plan->summary->max_depth_m, dive->summary->max_depth_m, "m");
    plmi_review_row(rows, "bottom time", (planned->left_s - planned->start_s) / 60, (done->left_s - done->start_s) / 60,
                    "min");
    plmi_review_row(rows, "depth on leaving the bottom", planned->left_depth_m, done->left_depth_m, "m");
    plmi_review_row(rows, "decompression owed on leaving the bottom", sides->planned_owed_min, sides->done_owed_min,
                    "min");
    plmi_review_row(rows, "total runtime", (planned->surfaced_s - planned->start_s) / 60,
                    (done->surfaced_s - done->start_s) / 60, "min");
}

static void oxygen(struct plmi_review_rows *rows, const struct plmi_review_sides *sides)
{
    const struct plm_trace_summary *planned = sides->plan->summary, *done = sides->dive->summary;
    plmi_review_row(rows, "oxygen clock", planned->cns_pct, done->cns_pct, "%");
    plmi_review_row(rows, "oxygen tolerance units", planned->otu, done->otu, "OTU");
    plmi_review_row(rows, "highest oxygen pressure", planned->max_po2_bar, done->max_po2_bar, "bar");
    plmi_review_row(rows, "highest gas density", planned->max_density_g_l, done->max_density_g_l, "g/L");
    plmi_review_row(rows, "surfacing gradient", planned->surfacing_gradient_pct, done->surfacing_gradient_pct, "%");
}

static void stops(struct plmi_review_rows *rows, const struct plmi_review_sides *sides)
{
    double step_m = sides->dive->rules->stop_step_m;
    double deepest_m = fmax(sides->planned.left_depth_m, sides->done.left_depth_m) - step_m;
    for (double stop_m = floor(deepest_m / step_m) * step_m; stop_m > 0; stop_m -= step_m) {
        double planned_s = plmi_review_stop_s(sides->plan, &sides->planned, stop_m),
               done_s = plmi_review_stop_s(sides->dive, &sides->done, stop_m);
        double least_s = plmi_review_stop_least_s(sides->dive->rules, stop_m);
        if (planned_s > least_s || done_s > least_s) {
            plmi_review_row(rows, plm_finding_sentence(&rows->texts, "stop at {0} m", stop_m), planned_s / 60,
                            done_s / 60, "min");
        }
    }
}

static void legs(struct plmi_review_rows *rows, const struct plmi_review_sides *sides,
                 const struct plmi_review_legs *all)
{
    for (size_t i = 0; i < all->count; i++) {
        const struct plmi_review_leg *leg = &all->items[i];
        double planned = plmi_review_leg_pass(sides->plan, leg, false).rate_m_min,
               done = plmi_review_leg_pass(sides->dive, leg, true).rate_m_min;
        plmi_review_row(rows, plm_finding_sentence(&rows->texts, "ascent from {0} m to {0} m", leg->from_m, leg->to_m),
                        planned, done, "m/min");
    }
}

/* "2.1 m deeper" and the like, joined; "" where all is within the tolerances. */
static const char *deviations(struct plm_finding_list *texts, const struct plmi_review_sides *sides)
{
    const struct plm_rules *rules = sides->dive->rules;
    double deeper_m = sides->dive->summary->max_depth_m - sides->plan->summary->max_depth_m;
    double longer_s = (sides->done.left_s - sides->done.start_s) - (sides->planned.left_s - sides->planned.start_s);
    const char *words = "";
    if (fabs(deeper_m) > rules->plan_depth_m) {
        words = plm_finding_sentence(texts, "{m} {s}", fabs(deeper_m), deeper_m > 0 ? "deeper" : "shallower");
    }
    if (fabs(longer_s) > rules->plan_time_s) {
        words = plm_finding_sentence(texts, "{s}{s}{d} {s} at the bottom", words, words[0] == '\0' ? "" : " and ",
                                     fabs(longer_s), longer_s > 0 ? "longer" : "shorter");
    }
    return words;
}

static const char *verdict(struct plm_finding_list *texts, const struct plmi_review_sides *sides)
{
    const char *words = deviations(texts, sides);
    const char *lead = words[0] == '\0' ? "Depth and bottom time as planned"
                                        : plm_finding_sentence(texts, "The dive was {s} than planned", words);
    double more_min = sides->done_owed_min - sides->planned_owed_min;
    if (!isfinite(more_min)) {
        return plm_finding_sentence(texts, "{s}; the decompression owed cannot be compared.", lead);
    }
    if (fabs(more_min) < 0.5) {
        return plm_finding_sentence(texts, "{s}; it owed {0} min of stops on leaving the bottom, as the plan did.",
                                    lead, sides->done_owed_min);
    }
    return plm_finding_sentence(texts,
                                "{s}; it owed {0} min of stops on leaving the bottom, {0} min {s} than the plan.", lead,
                                sides->done_owed_min, fabs(more_min), more_min > 0 ? "more" : "less");
}

static const char *assumed(struct plm_finding_list *texts, const struct plm_review_plan *plan)
{
    const char *gas = plan->gas_taken        ? "the plan names no gas: the dive's was taken"
                      : plan->setpoint_taken ? "the plan names no set point: the dive's were taken"
                                             : "";
    if (!plan->ascent_computed) {
        return gas;
    }
    const char *ascent = "the plan names no ascent: its schedule was computed by the rules in force";
    return gas[0] == '\0' ? ascent : plm_finding_sentence(texts, "{s}; {s}", gas, ascent);
}

struct plm_plan_comparison *plmi_review_plan_compare(struct plm_review_plan *plan, const struct plm_review_scene *scene)
{
    struct plm_plan_comparison *out = calloc(1, sizeof *out);
    if (out == NULL) {
        plmi_review_plan_free(plan);
        return NULL;
    }
    struct plmi_review_sides sides = {
        .plan = &plan->scene, .dive = scene, .planned = plan->phases, .done = plmi_review_phases_of(scene)};
    sides.planned_owed_min = plmi_review_owed_min(sides.plan, sides.planned.left);
    sides.done_owed_min = plmi_review_owed_min(sides.dive, sides.done.left);
    plmi_finding_list_init(&out->rows.texts);
    figures(&out->rows, &sides);
    stops(&out->rows, &sides);
    legs(&out->rows, &sides, &plan->legs);
    plmi_review_switch_rows(&out->rows, &sides);
    oxygen(&out->rows, &sides);
    out->verdict = verdict(&out->rows.texts, &sides);
    out->assumed = assumed(&out->rows.texts, plan);
    out->plan = *plan;
    *plan = (struct plm_review_plan){.dive = NULL};
    if (!out->rows.texts.failed) {
        return out;
    }
    plmi_review_comparison_free(out);
    return NULL;
}

void plmi_review_comparison_free(struct plm_plan_comparison *comparison)
{
    if (comparison == NULL) {
        return;
    }
    plmi_review_plan_free(&comparison->plan);
    plmi_finding_list_free(&comparison->rows.texts);
    free(comparison->rows.items);
    free(comparison);
}

const struct plm_plan_row *plm_plan_rows(const struct plm_plan_comparison *comparison, size_t *count)
{
    *count = comparison->rows.count;
    return comparison->rows.items;
}

const char *plm_plan_verdict(const struct plm_plan_comparison *comparison)
{
    return comparison->verdict;
}

const char *plm_plan_assumed(const struct plm_plan_comparison *comparison)
{
    return comparison->assumed;
}

const struct plm_dive *plm_plan_dive(const struct plm_plan_comparison *comparison)
{
    return comparison->plan.dive;
}

double plm_plan_shift_s(const struct plm_plan_comparison *comparison)
{
    return comparison->plan.shift_s;
}
