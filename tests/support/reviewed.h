/*
 * A dive with its trace and findings, for tests of the reviewers.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_SUPPORT_REVIEWED_H
#define PLM_SUPPORT_REVIEWED_H

#include <check.h>
#include <plimsoll/review.h>

#include "support/made_dive.h"

/* Owns dive, trace and findings; rules and options live as long. */
struct reviewed {
    struct plm_rules rules;
    struct plm_replay_options options;
    struct plm_dive *dive;
    struct plm_trace *trace;
    struct plm_findings *findings;
    struct plm_review_input input;
};

/* How a review is to run. Zeroed: by the dive's rules alone. */
struct review_wish {
    const struct plm_dive *plan;
    const struct plm_start *start;
    bool hold, cost;
};

/* Finishes the dive, replays and reviews it. reviewed must stay where it is. */
void reviewed_make(struct reviewed *reviewed, struct made_dive *made, const struct review_wish *wish);
/* The same for a dive that is finished; takes it over. */
void reviewed_dive(struct reviewed *reviewed, struct plm_dive *dive, const struct plm_rules *rules,
                   const struct review_wish *wish);
void reviewed_free(struct reviewed *reviewed);

/* How many findings of a kind there are. */
size_t reviewed_count(const struct reviewed *reviewed, enum plm_finding_kind kind);
/* How many of any plan-* kind. */
size_t reviewed_count_plan(const struct reviewed *reviewed);
/* The worst of a kind; fails the test where there is none. */
const struct plm_finding *reviewed_first(const struct reviewed *reviewed, enum plm_finding_kind kind);
/* Prints all findings to standard error, for a test that failed. */
void reviewed_print(const struct reviewed *reviewed);

/* A straight leg from the last sample: to depth_m within dt_s, a sample every step_s. time_s is moved on. */
void leg(struct made_dive *made, double *time_s, double *depth_m, double to_m, double dt_s, double step_s);

#endif
