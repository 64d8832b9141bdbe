/*
 * Findings that a floor above raises from what it knows: two recorders compared, a clock held against a team.
 * Must not look at a trace.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REVIEW_SCENE_MADE_H
#define PLM_REVIEW_SCENE_MADE_H

#include "review/scene/list.h"

/* A difference between two recorders of one diver. */
struct plmi_review_difference {
    const char *what;    /* "set point", "mix", "depth", "surface pressure", ... */
    const char *unit;    /* of a and b, "" for none */
    double from_s, to_s; /* [s] on the clock of a */
    double from_depth_m, to_depth_m;
    double a, b;                 /* what each says; NaN: told in words only */
    const char *a_text, *b_text; /* in words, as "18/45"; NULL: from the numbers */
    double ceiling_m;            /* [m] largest difference of the ceilings that comes of it; NaN not known */
    double decompression_min;    /* [min] difference of decompression owed; NaN not known */
};

/* Adds recorders-disagree; a caution where ceilings are 1 m or decompression 1 min apart or more, else a note. */
void plmi_review_recorders_differ(struct plmi_review_list *list, const struct plmi_review_difference *difference);

/*
 * Adds clock-doubt.
 *   off_s     [s] by which the clock seems off, positive when it is ahead
 *   evidence  in words, as "the dives of three others"
 */
void plmi_review_clock_doubted(struct plmi_review_list *list, double from_s, double to_s, double off_s,
                               const char *evidence);

/* New findings with those of a list put among them; the list is copied, findings stay as they are. Returns: NULL
 * without memory. */
struct plm_findings *plmi_review_findings_with(const struct plm_findings *findings,
                                               const struct plmi_review_list *list);

#endif
