/*
 * A kind raised by the floor team: two recorders of one diver tell different stories.
 * Must not compare them; it puts the difference into words.
 * SPDX-License-Identifier: MIT
 */
#include "review/scene/made.h"
#include "review/kinds/reviewers.h"

#include <math.h>

#include "base/figure.h"

#define CAUTION_M   1.0 /* [m] difference of ceilings from which it is a caution; convention */
#define CAUTION_MIN 1.0 /* [min] difference of decompression owed, ditto */

static const char *effect(struct plmi_review_list *list, const struct plmi_review_difference *difference)
{
    double ceiling_m = fabs(difference->ceiling_m), owed_min = fabs(difference->decompression_min);
    if (!isnan(ceiling_m) && !isnan(owed_min)) {
        return plmi_review_sentence(list, "; ceilings come out up to {m} apart, decompression owed {1} min", ceiling_m,
                                    owed_min);
    }
    if (!isnan(ceiling_m)) {
        return plmi_review_sentence(list, "; ceilings come out up to {m} apart", ceiling_m);
    }
    return isnan(owed_min) ? "" : plmi_review_sentence(list, "; decompression owed comes out {1} min apart", owed_min);
}

void plmi_review_recorders_differ(struct plmi_review_list *list, const struct plmi_review_difference *difference)
{
    struct plm_finding *finding = plmi_review_list_add(list, PLM_FINDING_RECORDERS_DISAGREE);
    if (finding == NULL) {
        return;
    }
    bool matters = fabs(difference->ceiling_m) >= CAUTION_M || fabs(difference->decompression_min) >= CAUTION_MIN;
    finding->severity = matters ? PLM_SEVERITY_CAUTION : PLM_SEVERITY_NOTE;
    finding->from_s = difference->from_s;
    finding->to_s = difference->to_s;
    finding->from_depth_m = difference->from_depth_m;
    finding->to_depth_m = difference->to_depth_m;
    finding->value = difference->b;
    finding->limit = difference->a;
    struct plmi_figure a = plmi_figure_short(difference->a, 2), b = plmi_figure_short(difference->b, 2);
    const char *space = difference->unit[0] == '\0' ? "" : " ";
    finding->text = plmi_review_sentence(
        list, "The recorders differ in {s} {w}: {s}{s}{s} on one, {s}{s}{s} on the other{s}.", difference->what,
        difference->from_s, difference->to_s, difference->a_text != NULL ? difference->a_text : a.text, space,
        difference->unit, difference->b_text != NULL ? difference->b_text : b.text, space, difference->unit,
        effect(list, difference));
}

static const struct plm_explanation explanation = {
    .what = "Two recorders that one diver wore on one dive do not tell the same: a set point or mix changed on one "
            "only, another depth, another surface "
            "pressure. Their ceilings then part, and only one of them can have been right.",
    .reached =
        "A note; a caution where the ceilings come out 1 m or more apart, or the decompression owed 1 min or more.",
    .formula = "Both records on one clock, each replayed as it stands; value is what the second says, limit what the "
               "first says.",
    .source = "Convention of this program.",
    .ask = "Which of the two did the diver follow? When was the second one changed? Which one was right about what was "
           "breathed?"};

const struct plmi_reviewer plmi_review_recorders_disagree = {PLM_FINDING_RECORDERS_DISAGREE, NULL, &explanation};
