/*
 * Rows of a comparison on mixes and set points: where and when each was switched to.
 * Must not judge.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "review/plan/comparison.h"

static bool gas_alike(const struct plm_review_scene *a, size_t i, const struct plm_review_scene *b, size_t j)
{
    return plmi_review_setting(a, i)->mode == plmi_review_setting(b, j)->mode &&
           plmi_review_mix_alike(a->rules, &plmi_review_mix(a, i)->mix, &plmi_review_mix(b, j)->mix);
}

static bool setpoint_alike(const struct plm_review_scene *a, size_t i, const struct plm_review_scene *b, size_t j)
{
    const struct plm_setting *one = plmi_review_setting(a, i), *other = plmi_review_setting(b, j);
    return one->mode == PLM_MODE_CLOSED && other->mode == PLM_MODE_CLOSED &&
           fabs(one->setpoint_bar - other->setpoint_bar) <= a->rules->plan_setpoint_bar + 1e-9;
}

typedef bool alike(const struct plm_review_scene *a, size_t i, const struct plm_review_scene *b, size_t j);

/* The point of the dive at which it changes to what the plan changes to at one of its points; nearest in depth. count:
 * it never does. */
static size_t partner(const struct plmi_review_sides *sides, size_t planned, alike *same)
{
    const struct plm_review_scene *dive = sides->dive;
    bool ascent = planned > sides->planned.left;
    size_t best = dive->count;
    double best_m = INFINITY;
    for (size_t i = 1; i < dive->count; i++) {
        double away_m = fabs(dive->points[i].depth_m - sides->plan->points[planned].depth_m);
        if ((i > sides->done.left) != ascent || same(dive, i, dive, i - 1) || !same(sides->plan, planned, dive, i) ||
            away_m >= best_m) {
            continue;
        }
        best = i;
        best_m = away_m;
    }
    return best;
}

static void add(struct plmi_review_rows *rows, const struct plmi_review_sides *sides, size_t planned, alike *same,
                const char *to)
{
    size_t done = partner(sides, planned, same);
    bool found = done < sides->dive->count;
    double done_m = found ? sides->dive->points[done].depth_m : (double)NAN;
    double done_s = found ? plmi_review_time_s(sides->dive, done) - sides->done.start_s : (double)NAN;
    plmi_review_row(rows, plm_finding_sentence(&rows->texts, "{s}: depth", to), sides->plan->points[planned].depth_m,
                    done_m, "m");
    plmi_review_row(rows, plm_finding_sentence(&rows->texts, "{s}: runtime", to),
                    (plmi_review_time_s(sides->plan, planned) - sides->planned.start_s) / 60, done_s / 60, "min");
}

/* "18/45", "the loop on 10/70". */
static const char *gas_words(struct plmi_review_rows *rows, const struct plm_review_scene *scene, size_t point)
{
    char name[32];
    const char *on = plmi_review_setting(scene, point)->mode == PLM_MODE_OPEN ? "" : "the loop on ";
    return plm_finding_sentence(&rows->texts, "{s}{s}", on,
                                plm_mix_name(&plmi_review_mix(scene, point)->mix, name, sizeof name));
}

void plmi_review_switch_rows(struct plmi_review_rows *rows, const struct plmi_review_sides *sides)
{
    const struct plm_review_scene *plan = sides->plan;
    size_t start = sides->dive->summary->descent_start;
    plmi_review_row_words(rows, "first gas", gas_words(rows, plan, plan->summary->descent_start),
                          gas_words(rows, sides->dive, start));
    for (size_t i = 1; i < plan->count; i++) {
        if (!gas_alike(plan, i, plan, i - 1)) {
            add(rows, sides, i, gas_alike,
                plm_finding_sentence(&rows->texts, "switch to {s}", gas_words(rows, plan, i)));
        }
        const struct plm_setting *setting = plmi_review_setting(plan, i);
        if (setting->mode == PLM_MODE_CLOSED && !isnan(setting->setpoint_bar) &&
            !setpoint_alike(plan, i, plan, i - 1)) {
            add(rows, sides, i, setpoint_alike,
                plm_finding_sentence(&rows->texts, "set point {2} bar from", setting->setpoint_bar));
        }
    }
}
