/*
 * Two or more recorders of one diver on one dive: laid over each other, and what they tell differently.
 * A frozen value; refers to records by their index in the call.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_RECONCILE_H
#define PLM_RECONCILE_H

#include <stddef.h>

#include <plimsoll/alignment.h>
#include <plimsoll/debrief.h>

#ifdef __cplusplus
extern "C" {
#endif

/* What a difference is about; words in plm_difference_kind_text. */
enum plm_difference_kind {
    PLM_DIFFERENCE_SETPOINT,
    PLM_DIFFERENCE_MIX,
    PLM_DIFFERENCE_MODE,
    PLM_DIFFERENCE_MEASURED,
    PLM_DIFFERENCE_DEPTH,
    PLM_DIFFERENCE_GAP,
    PLM_DIFFERENCE_SURFACE,
    PLM_DIFFERENCE_CLOCK,
    PLM_DIFFERENCE_DIVER,
    PLM_DIFFERENCE_COUNT
};

/* One thing that two records tell differently. Times are a's runtime; NaN where it is about the whole dive. */
struct plm_difference {
    enum plm_difference_kind kind;
    double from_s, to_s;
    const char *a, *b;          /* what each says, in words; owned by the reconciliation       */
    double ceiling_m;           /* b's version less a's where they are furthest apart; NaN where it has no bearing */
    double decompression_min;   /* owed at to_s by b's version less by a's; NaN likewise        */
    enum plm_severity severity; /* of the finding recorders-disagree that it makes: a caution where ceilings are 1 m
                                   apart or decompression 1 min, or where the divers differ; else a note */
    const char *text;           /* one sentence                                                */
};

/* Two records of the call laid over each other. */
struct plm_reconciled_pair {
    size_t a, b; /* indices of the records */
    struct plm_alignment alignment;
    size_t count;
    const struct plm_difference *differences;
};

struct plm_reconciliation; /* opaque, immutable */

/*
 * Lays each record over the first and compares them.
 *   records  [count] borrowed while the reconciliation lives, each with dive and trace
 *   count    2..16
 *   replay   rules and overrides of the traces, for replaying each record's version of the settings
 * Returns: OK, ARGUMENT or MEMORY reported.
 */
PLM_API enum plm_status plm_reconcile(struct plm_reconciliation **out, const struct plm_debriefed *const *records,
                                      size_t count, const struct plm_replay_options *replay,
                                      const struct plm_diag_sink *sink);
/* One pair for each record after the first. */
PLM_API const struct plm_reconciled_pair *plm_reconciliation_pairs(const struct plm_reconciliation *reconciliation,
                                                                   size_t *count);
/* Whether all records are one dive. */
PLM_API bool plm_reconciliation_same_dive(const struct plm_reconciliation *reconciliation);
/* Index of the more complete record, and one sentence why; with the evidence where they are not one dive. */
PLM_API size_t plm_reconciliation_best(const struct plm_reconciliation *reconciliation);
/* The sentence itself; owned by the reconciliation. */
PLM_API const char *plm_reconciliation_verdict(const struct plm_reconciliation *reconciliation);
/* Frees the reconciliation, not the records. NULL is allowed. */
PLM_API void plm_reconciliation_free(struct plm_reconciliation *reconciliation);

/* "setpoint", "mix", "mode", "measured-po2", "depth", "gap", "surface-pressure", "clock", "diver". */
PLM_API const char *plm_difference_kind_text(enum plm_difference_kind kind);

/*
 * One record of all: the more complete one, its gaps filled and its cells completed from the others.
 * A note among the events says from where on samples are of which record.
 *   from [out] index of the record of each sample, one a sample; the caller frees it with free(). May be NULL.
 * Returns: OK and *out (the caller frees); ARGUMENT where they are not one dive; MEMORY.
 */
PLM_API enum plm_status plm_reconciliation_merge(struct plm_dive **out, unsigned char **from,
                                                 const struct plm_reconciliation *reconciliation,
                                                 const struct plm_rules *rules, const struct plm_diag_sink *sink);

#ifdef __cplusplus
}
#endif

#endif
