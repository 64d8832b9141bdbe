/*
 * A kind raised by the floor team: two recorders of one diver tell different stories.
 * Must not compare them; the words of its explanation stand here.
 * SPDX-License-Identifier: MIT
 */
#include "review/kinds/reviewers.h"

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

const struct plm_reviewer plmi_review_recorders_disagree = {.kind = "recorders-disagree",
                                                            .unit = "",
                                                            .meaning =
                                                                "two recorders of a diver tell different stories",
                                                            .explanation = &explanation};
