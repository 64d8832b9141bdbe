/*
 * Reviewer: oxygen tolerance units of one day.
 * Must not sum runs of days; review_otu_days.c does.
 * SPDX-License-Identifier: MIT
 */
#include "review/kinds/reviewers.h"

#include "review/scene/dose.h"

static double dose(const struct plm_point *point)
{
    return point->otu;
}

static void look(const struct plm_review_scene *scene, struct plm_finding_list *list)
{
    double carried = plmi_review_carried(scene).otu_day;
    struct plm_finding *finding = plmi_review_dose_found(list, scene, dose, carried, scene->rules->otu_day_max);
    if (finding == NULL) {
        return;
    }
    finding->severity = PLM_SEVERITY_CAUTION;
    const char *before = carried < 0.5 ? "" : plm_finding_sentence(list, ", {0} of them before this dive", carried);
    finding->text = plm_finding_sentence(list, "{0} oxygen tolerance units within a day{s}; {0} was reached at {t}.",
                                         finding->value, before, finding->limit, finding->from_s);
}

static const struct plm_explanation explanation = {
    .what = "The dose of oxygen that strains the lungs, over the dive and the 24 h before it, came to the allowance of "
            "a single day.",
    .reached = "A caution from otu_day_max (850 OTU) on.",
    .formula = "OTU = t ((PO2 - 0.5) / 0.5)^(5/6), t in minutes, PO2 above 0.5 bar, exact on ramps; what the start "
               "state carries is added.",
    .source = "Hamilton, Kenyon, Peterson, REPEX, NOAA 1988.",
    .ask = "Is this one of several such days? Any burning behind the breastbone, cough, or shortness of breath?"};

const struct plm_reviewer plmi_review_otu_day = {.kind = "otu-day",
                                                 .unit = "OTU",
                                                 .meaning = "oxygen tolerance units of a day",
                                                 .look = look,
                                                 .explanation = &explanation};
