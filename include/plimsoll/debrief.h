/*
 * The whole pipeline, top to bottom: log -> dives -> trace -> decompression -> findings. Dive by dive;
 * must hold no more than one dive at a time.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_DEBRIEF_H
#define PLM_DEBRIEF_H

#include <plimsoll/log.h>
#include <plimsoll/review.h>

#ifdef __cplusplus
extern "C" {
#endif

struct plm_debrief; /* opaque: an open source being debriefed */

/* Made by plm_debrief_options_default. Pointers are borrowed while the debrief lives. */
struct plm_debrief_options {
    const struct plm_rules *rules; /* of replay and review, before what a dive's log and card tell; never NULL */
    double surface_bar, altitude_m, water_kg_m3; /* as struct plm_replay_options; NaN none             */
    int dive_index;                              /* the only dive wanted, as its info->index; 0: all           */
    const struct plm_dive *plan;                 /* NULL: the one of the log, or the dive's own, if any               */
    const struct plm_start *start;               /* before the first dive; NULL: saturated with air            */
    /* What the diver carries into a dive, from outside its file; in_file: the file tells of a dive before it that
     * counts.
     * Returns: false: nothing is known, the file's word is taken. NULL none. */
    bool (*residual_find)(void *context, const struct plm_dive *dive, bool in_file, struct plm_start *start);
    void *residual_context;
    bool schedules;     /* time to surface and no-stop time at each sample            */
    bool decompression; /* owed, done, achieved                                       */
    struct plm_review_options review;
    bool replay_only; /* neither decompression nor review: for a trace              */
};
/* Everything but a start and a plan: all dives with schedules, decompression, hold and cost. */
PLM_API struct plm_debrief_options plm_debrief_options_default(const struct plm_rules *rules);

/* One dive debriefed. The caller frees it with plm_debriefed_free. */
struct plm_debriefed {
    struct plm_dive *dive;
    struct plm_trace *trace;
    struct plm_decompression *decompression; /* NULL where not asked for                               */
    struct plm_findings *findings;           /* NULL where replay_only                                 */
    const struct plm_dive *plan;             /* borrowed from the options, the log or dive; NULL none */
    struct plm_rules rules;                  /* by which this dive is judged: plm_log_rules_lay */
    enum plm_factors_from factors_from;      /* who states its gradient factors */
    struct plm_replay_options replay;        /* as the trace was made; its rules and its start are these here */
    struct plm_start start;                  /* what was carried into the dive; its text is start_from */
    char start_from[48];
    char sha256[65]; /* of the log's bytes as stored; "" where it was opened without digest */
    /* what was understood of the log; borrowed from it while it lives */
    const struct plm_verdict *verdict;
};

/*
 * Debriefs an open log from its next dive on. The log stays the caller's; it, options' pointers and sink must outlive
 * the debrief.
 *
 * Returns: OK with *out; MEMORY reported.
 */
PLM_API enum plm_status plm_debrief_open(struct plm_debrief **out, struct plm_log *log,
                                         const struct plm_debrief_options *options, const struct plm_diag_sink *sink);
/*
 * The next dive wanted. Within one repetition group tissues and oxygen clocks carry from dive to dive over the surface
 * interval: the one stated by the log, else from start times and durations; where neither is known the dive starts
 * saturated with air and a warning is reported. A dive that is not wanted is replayed only as far as a wanted one needs
 * it.
 * Returns: OK with *out; END; or an error that is reported, after which the debrief is over.
 */
PLM_API enum plm_status plm_debrief_next(struct plm_debrief *debrief, struct plm_debriefed **out);
/*
 * Debriefs a dive that plm_log_next gave of this log, as plm_debrief_next does, whatever dive_index says. Takes dive,
 * also where it fails. Returns: OK with *out; or an error that is reported.
 */
PLM_API enum plm_status plm_debrief_run(struct plm_debrief *debrief, struct plm_dive *dive, struct plm_debriefed **out);
/*
 * Debriefs one dive of another origin than a log that this library reads: built by a caller's own importer with
 * dive_builder.h. It becomes the same value as a dive of a log, for the same reports; its verdict is NULL, its sha256
 * that of its info.
 *   dive     taken, also where it fails
 *   options  dive_index is not used; plan and reviewers are borrowed while *out lives. Gradient factors of the
 *            dive's info stand before those of the rules. What the diver carries in is start, or what residual_find()
 * gives Returns: OK with *out (the caller frees it with plm_debriefed_free); or an error that is reported, and *out
 * NULL: those of plm_replay, plm_decompression_find and plm_review, MEMORY.
 */
PLM_API enum plm_status plm_debrief_dive(struct plm_debriefed **out, struct plm_dive *dive,
                                         const struct plm_debrief_options *options, const struct plm_diag_sink *sink);
/* Whether some of the input was not used, or used with a doubt: a warning or an error was reported about it. */
PLM_API bool plm_debrief_partial(const struct plm_debrief *debrief);
/* NULL is allowed. */
PLM_API void plm_debriefed_free(struct plm_debriefed *debriefed);
/* NULL is allowed. What plm_debrief_next gave stays. */
PLM_API void plm_debrief_free(struct plm_debrief *debrief);

#ifdef __cplusplus
}
#endif

#endif
