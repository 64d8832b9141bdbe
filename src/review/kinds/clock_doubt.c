/*
 * A kind raised by the floor team: a recorder's clock that cannot be right.
 * Must not find it; the words of its explanation stand here.
 * SPDX-License-Identifier: MIT
 */
#include "review/kinds/reviewers.h"

static const struct plm_explanation explanation = {
    .what = "By the other records of the day this recorder's clock was wrong. The dive itself is not touched, but what "
            "is carried from dive to dive hangs "
            "on surface intervals, and who dived with whom on the clock.",
    .reached = "Always a note.",
    .formula =
        "What is to be added to this clock so that the dive's profile lies over those of the team or of the diver's "
        "other recorder: positive where the clock is behind, negative where it is ahead. Where it is within two "
        "minutes of a whole quarter of an hour, and the profiles fit by that quarter as well, the quarter is "
        "proposed: a time zone set wrong.",
    .source = "Convention of this program.",
    .ask = "Was the recorder left in another time zone? When was its battery changed? Which clock did the surface crew "
           "keep?"};

const struct plm_reviewer plmi_review_clock_doubt = {.kind = "clock-doubt",
                                                     .unit = "s",
                                                     .meaning = "a recorder's clock that cannot be right",
                                                     .explanation = &explanation};
