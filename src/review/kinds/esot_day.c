/*
 * Reviewer: the equivalent surface oxygen time of a day, where the rules set a limit.
 * Must not set one itself: none is known well enough.
 * SPDX-License-Identifier: MIT
 */
#include "review/kinds/reviewers.h"

#include "review/scene/dose.h"

static double dose(const struct plm_point *point)
{
    return point->esot;
}

static void look(const struct plm_review_scene *scene, struct plm_finding_list *list)
{
    double limit = scene->rules->esot_day_max;
    if (!(limit > 0)) {
        return;
    }
    double carried = plmi_review_carried(scene).esot_day;
    struct plm_finding *finding = plmi_review_dose_found(list, scene, dose, carried, limit);
    if (finding == NULL) {
        return;
    }
    finding->severity = PLM_SEVERITY_NOTE;
    const char *before = carried < 0.5 ? "" : plm_finding_sentence(list, ", {0} of it before this dive", carried);
    finding->text = plm_finding_sentence(list,
                                         "Equivalent surface oxygen time of {0} within a day{s}; {0} was reached at "
                                         "{t}.",
                                         finding->value, before, limit, finding->from_s);
}

static const struct plm_explanation explanation = {
    .what = "A newer measure of what oxygen does to the lungs: as many minutes of pure oxygen at the surface would do "
            "the same. The dive "
            "and the 24 h before it came to the limit that the rules set.",
    .reached = "A note from esot_day_max on. That rule is 0 at first, and then nothing is flagged: no limit is known "
               "well enough here.",
    .formula = "ESOT = t PO2^2.285, t in minutes, exact on ramps.",
    .source = "Risberg and van Ooij 2022, from memory; Arieli et al. 2002 (J Appl Physiol 92:248); DMAC 35 advises it "
              "in place of UPTD.",
    .ask = "Which limit does the team or the operation dive by, and for how many days?"};

const struct plm_reviewer plmi_review_esot_day = {.kind = "esot-day",
                                                  .unit = "ESOT",
                                                  .meaning = "equivalent surface oxygen time of a day",
                                                  .look = look,
                                                  .explanation = &explanation};
