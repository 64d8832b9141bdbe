/*
 * A kind raised by the floor team: a recorder's clock that cannot be right.
 * Must not find the offset; it puts it into words.
 * SPDX-License-Identifier: MIT
 */
#include "review/scene/made.h"
#include "review/kinds/reviewers.h"

#include <math.h>

void plmi_review_clock_doubted(struct plmi_review_list *list, double from_s, double to_s, double off_s,
                               const char *evidence)
{
    struct plm_finding *finding = plmi_review_list_add(list, PLM_FINDING_CLOCK_DOUBT);
    if (finding == NULL) {
        return;
    }
    finding->severity = PLM_SEVERITY_NOTE;
    finding->from_s = from_s;
    finding->to_s = to_s;
    finding->value = off_s;
    finding->limit = 0;
    finding->text = plmi_review_sentence(list, "The recorder's clock seems {d} {s}, by {s}.", fabs(off_s),
                                         off_s < 0 ? "behind" : "ahead", evidence);
}

static const struct plm_explanation explanation = {
    .what = "By the other records of the day this recorder's clock was wrong. The dive itself is not touched, but what "
            "is carried from dive to dive hangs "
            "on surface intervals, and who dived with whom on the clock.",
    .reached = "Always a note.",
    .formula = "The offset that lays this dive's profile upon those of the team; positive when the clock is ahead.",
    .source = "Convention of this program.",
    .ask = "Was the recorder left in another time zone? When was its battery changed? Which clock did the surface crew "
           "keep?"};

const struct plmi_reviewer plmi_review_clock_doubt = {PLM_FINDING_CLOCK_DOUBT, NULL, &explanation};
