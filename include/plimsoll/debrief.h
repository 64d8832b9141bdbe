/*
 * The whole pipeline, top to bottom: source -> dives -> trace -> decompression -> findings. Dive by dive.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_DEBRIEF_H
#define PLM_DEBRIEF_H

#include <plimsoll/import.h>
#include <plimsoll/review.h>

struct plm_debrief;   /* opaque: an open source being debriefed */

struct plm_card;      /* card.h */

/* Zero-initialise through plm_debrief_options_default. Pointers are borrowed while the debrief lives. */
struct plm_debrief_options {
    struct plm_import_options import;      /* import.rules are the rules of all */
    double surface_bar, altitude_m, water_kg_m3;   /* overrides, NaN none */
    int dive_index;                        /* --dive N, from 1; 0: all */
    const struct plm_card *card;           /* laid over each dive; NULL */
    const struct plm_dive *plan;           /* NULL: the dive's own, if any */
    const struct plm_start *start;         /* before the first dive; NULL: saturated */
    bool schedules;                        /* tts and no-stop at each sample */
    bool decompression;                    /* owed, done, achieved */
    struct plm_review_options review;
    bool replay_only;                      /* trace alone: no review */
};
/* Everything unknown, nothing asked for but what a debrief shows; rules are borrowed. */
PLM_API struct plm_debrief_options plm_debrief_options_default(const struct plm_rules *rules);

/* One dive debriefed. Owned by the caller through plm_debriefed_free; members are never NULL but for plan (and decompression, findings where not asked for). */
struct plm_debriefed {
    struct plm_dive *dive;
    struct plm_trace *trace;
    struct plm_decompression *decompression;
    struct plm_findings *findings;
    const struct plm_dive *plan;           /* borrowed from options or from dive */
};

/* source stays the caller's and must outlive the debrief. Returns: OK with *out (the caller frees), or an error that is reported. */
PLM_API enum plm_status plm_debrief_open(struct plm_debrief **out, struct plm_source *source, const struct plm_debrief_options *options,
                                         const struct plm_diag_sink *sink);
/* Returns: OK with *out; END; or an error that is reported. Tissues carry from dive to dive within a repetition group by the surface interval. */
PLM_API enum plm_status plm_debrief_next(struct plm_debrief *debrief, struct plm_debriefed **out);
/* Whether some of the input was not used, so far. */
PLM_API bool plm_debrief_partial(const struct plm_debrief *debrief);
/* Frees the dive and all that was made of it. NULL is allowed. */
PLM_API void plm_debriefed_free(struct plm_debriefed *debriefed);
/* NULL is allowed. What _next gave stays the caller's. */
PLM_API void plm_debrief_free(struct plm_debrief *debrief);

#endif
