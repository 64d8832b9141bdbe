/*
 * The reviewers over a trace: findings, whether they hold, and what they cost.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REVIEW_H
#define PLM_REVIEW_H

#include <plimsoll/decompression.h>
#include <plimsoll/findings.h>
#include <plimsoll/replay.h>

#ifdef __cplusplus
extern "C" {
#endif

struct plm_plan_comparison; /* opaque; plan.h */

struct plm_review_input {
    const struct plm_dive *dive;
    const struct plm_trace *trace;
    const struct plm_decompression *decompression; /* NULL: not found */
    const struct plm_dive *plan;                   /* NULL: none */
    /* as the trace was made: for replays of edited and shifted dives */
    const struct plm_replay_options *replay;
};

struct plm_review_options {
    bool hold;              /* replay again over the tolerance of the recorder */
    bool cost;              /* replay edited dives */
    bool cost_for_severity; /* only those edits that decide a severity, and no cost of all: severities and texts are as
                               with all of them, unless the replays that a review may take run out */
};

/* Runs all reviewers. Returns: OK with *out (the caller frees), or an error that is reported. */
PLM_API enum plm_status plm_review(struct plm_findings **out, const struct plm_review_input *input,
                                   const struct plm_review_options *options, const struct plm_diag_sink *sink);

/* What `plimsoll explain` says of a kind. Static; all fields are there for every kind. */
struct plm_explanation {
    const char *what, *reached, *formula, *source, *ask;
};
/* The explanation of a kind; never NULL, static. */
PLM_API const struct plm_explanation *plm_finding_explain(enum plm_finding_kind kind);

#ifdef __cplusplus
}
#endif

#endif
