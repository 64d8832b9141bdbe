/*
 * Reviewer: oxygen tolerance units over a run of days.
 * Must not judge a single day; review_otu_day.c does.
 * SPDX-License-Identifier: MIT
 */
#include "review/kinds/reviewers.h"

#include "review/scene/dose.h"
#include "tissue/oxygen.h"

static double dose(const struct plm_point *point)
{
    return point->otu;
}

static void look(const struct plm_review_scene *scene, struct plm_finding_list *list)
{
    struct plm_start carried = plmi_review_carried(scene);
    if (carried.otu_run_days < 2) {
        return;
    }
    double allowed = plmi_otu_total_allowed(carried.otu_run_days);
    struct plm_finding *finding = plmi_review_dose_found(list, scene, dose, carried.otu_run, allowed);
    if (finding == NULL) {
        return;
    }
    finding->severity = PLM_SEVERITY_CAUTION;
    finding->text = plm_finding_sentence(
        list,
        "{0} oxygen tolerance units over {i} days without a day off, {0} of them before this dive; {0} are "
        "allowed for so many.",
        finding->value, carried.otu_run_days, carried.otu_run, allowed);
}

static const struct plm_explanation explanation = {
    .what = "The dose of oxygen that strains the lungs adds up over days; the longer the run, the less is allowed a "
            "day. This dive "
            "brought the run to its allowance.",
    .reached = "A caution when the total reaches the allowance for as many days. Only where a start state tells what "
               "the days before took, and "
               "from the second day on; the first is otu-day.",
    .formula = "OTU of the run before the dive and of the dive, against the REPEX total for the number of days.",
    .source = "Hamilton, Kenyon, Peterson, REPEX, NOAA 1988; rows beyond the first day from memory.",
    .ask =
        "Is a day off planned? Cough, burning behind the breastbone, shortness of breath, less than usual strength?"};

const struct plm_reviewer plmi_review_otu_days = {.kind = "otu-days",
                                                  .unit = "OTU",
                                                  .meaning = "oxygen tolerance units of a run of days",
                                                  .look = look,
                                                  .explanation = &explanation};
