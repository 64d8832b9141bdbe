/*
 * Reviewer: the oxygen clock of the single exposure.
 * Must not count the 24 h limits; review_cns_day.c does.
 * SPDX-License-Identifier: MIT
 */
#include "review/kinds/reviewers.h"

#include "review/scene/dose.h"

static double dose(const struct plm_point *point)
{
    return point->cns_pct;
}

static void look(const struct plm_review_scene *scene, struct plm_finding_list *list)
{
    struct plm_finding *finding = plmi_review_cns_found(list, scene, dose, 0);
    if (finding == NULL) {
        return;
    }
    finding->text = plm_finding_sentence(list, "The oxygen clock {s} {0} % at the end; it passed {0} % at {t} and {m}.",
                                         scene->summary->cns_beyond_min > 0 ? "was at least" : "stood at",
                                         finding->value, finding->limit, finding->from_s, finding->from_depth_m);
}

static const struct plm_explanation explanation = {
    .what =
        "The share of the single-exposure oxygen allowance that the dive used, with what was left of earlier dives. It "
        "stands for the risk of a convulsion, and it is a rough measure.",
    .reached = "A note from cns_note_pct (80 %), a caution from cns_caution_pct (100 %).",
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
