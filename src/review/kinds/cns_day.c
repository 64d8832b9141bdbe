/*
 * Reviewer: the oxygen clock of 24 hours.
 * Must not count the single-exposure limits; review_cns_single.c does.
 * SPDX-License-Identifier: MIT
 */
#include "review/kinds/reviewers.h"

#include "review/scene/dose.h"

static double dose(const struct plm_point *point)
{
    return point->cns_day_pct;
}

static void look(const struct plm_review_scene *scene, struct plm_finding_list *list)
{
    double carried = plmi_review_carried(scene).cns_day_pct;
    struct plm_finding *finding = plmi_review_cns_found(list, scene, dose, carried);
    if (finding == NULL) {
        return;
    }
    const char *before = carried < 0.5 ? "" : plm_finding_sentence(list, ", {0} % of it before this dive", carried);
    finding->text =
        plm_finding_sentence(list, "{s}{0} % of the oxygen allowance of 24 hours{s}; {0} % was passed at {t}{s}.",
                             finding->at_least ? "At least " : "", finding->value, before, finding->limit,
                             finding->from_s, plmi_review_beyond_words(scene, list));
}

static const struct plm_explanation explanation = {
    .what = "The share of the oxygen allowance of 24 hours that this dive and those of the day before it used. Unlike "
            "the clock of a single "
            "exposure it does not run down at the surface.",
    .reached = "A note from cns_note_pct (80 %), a caution from cns_caution_pct (100 %), serious from cns_serious_pct "
               "(200 %).",
    .formula = "The sum of time over the 24 h limit at each PO2, linear between the rows of the table, exact on ramps; "
               "what the start state carries "
               "of the last 24 h is added.",
    .source = "NOAA Diving Manual, table of oxygen exposure limits, column for 24 h.",
    .ask = "How many dives that day, and on which set points? Could the last stops have been done on less oxygen?"};

const struct plm_reviewer plmi_review_cns_day = {
    .kind = "cns-day", .unit = "%", .meaning = "oxygen clock of 24 hours", .look = look, .explanation = &explanation};
