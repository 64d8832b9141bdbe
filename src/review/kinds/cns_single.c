/*
 * Reviewer: the oxygen clock of the single exposure.
 * Must not count the 24 h limits; review_cns_day.c does.
 * SPDX-License-Identifier: MIT
 */
#include "review/kinds/reviewers.h"

#include "review/scene/dose.h"
#include "tissue/oxygen_limits.h"

static double dose(const struct plm_point *point)
{
    return point->cns_pct;
}

static double beyond_excess(const struct plm_review_scene *scene, size_t point)
{
    double beyond_bar = plmi_oxygen_row_bar[PLMI_OXYGEN_ROWS - 1] + scene->rules->cns_beyond_bar;
    return scene->points[point].po2_bar - beyond_bar;
}

/* A clock below its limits that was beyond its table: what it would be is not known, so it is told. */
static void beyond_tell(const struct plm_review_scene *scene, struct plm_finding_list *list)
{
    size_t first = 0, last = scene->count - 1;
    while (first < last && !(beyond_excess(scene, first) > 0)) {
        first++;
    }
    while (last > first && !(beyond_excess(scene, last) > 0)) {
        last--;
    }
    struct plm_finding *finding = plm_finding_add(list, scene, first, last);
    if (finding == NULL) {
        return;
    }
    finding->severity = PLM_SEVERITY_NOTE;
    finding->value = scene->summary->cns_pct;
    finding->at_least = true;
    finding->text = plm_finding_sentence(list, "The oxygen clock was at least {0} % at the end{s}.", finding->value,
                                         plmi_review_beyond_words(scene, list));
}

static void look(const struct plm_review_scene *scene, struct plm_finding_list *list)
{
    struct plm_finding *finding = plmi_review_cns_found(list, scene, dose, 0);
    if (finding != NULL) {
        finding->text = plm_finding_sentence(
            list, "The oxygen clock {s} {0} % at the end{s}; it passed {0} % at {t} and {m}.",
            finding->at_least ? "was at least" : "stood at", finding->value, plmi_review_beyond_words(scene, list),
            finding->limit, finding->from_s, finding->from_depth_m);
    } else if (scene->summary->cns_beyond_min > 0) {
        beyond_tell(scene, list);
    }
}

static const struct plm_explanation explanation = {
    .what =
        "The share of the single-exposure oxygen allowance that the dive used, with what was left of earlier dives. It "
        "stands for the risk of a convulsion, and it is a rough measure.",
    .reached =
        "A note from cns_note_pct (80 %), a caution from cns_caution_pct (100 %), serious from cns_serious_pct (200 "
        "%). A note at any percent where "
        "oxygen was more than cns_beyond_bar (0.1 bar) above the table, with the minutes and the highest pressure.",
    .formula = "The sum of time over the allowed time at each PO2, linear between the rows of the table, exact on "
               "ramps; nothing below 0.5 bar; "
               "above 1.6 bar no limit is published: minutes there count at the last row, 45 min, which is the least "
               "that they can count. At the "
               "surface it halves every cns_half_time_min (90 min).",
    .source = "NOAA Diving Manual, table of oxygen exposure limits. The half-time is second-hand; data are lacking.",
    .ask = "Was the set point as high as logged? Were there breaks on a leaner gas, which the clock does not reward? "
           "Any sign of oxygen "
           "trouble: twitching, vision, nausea?"};

const struct plm_reviewer plmi_review_cns_single = {.kind = "cns-single",
                                                    .unit = "%",
                                                    .meaning = "oxygen clock of the single exposure",
                                                    .look = look,
                                                    .explanation = &explanation};
