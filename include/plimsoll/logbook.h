/*
 * Dives into an exposure ledger, and figures out of it: which dive a record is of, which record stands for it, what the
 * diver carried into it, and what follows for the dives behind it. Figures are a function of what is stored, whatever
 * the order in which it came. Never prints; what a person should know goes to the sink.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_LOGBOOK_H
#define PLM_LOGBOOK_H

#include <plimsoll/debrief.h>
#include <plimsoll/ledger.h>
#include <plimsoll/past.h>
#include <plimsoll/sink.h>

#ifdef __cplusplus
extern "C" {
#endif

struct plm_logbook; /* opaque: work on a ledger, and the stored log that it read last; one thread at a time */

/*
 * Begins work on an open ledger. ledger and sink are borrowed and must outlive the logbook.
 * Returns: OK with *out; MEMORY reported.
 */
PLM_API enum plm_status plm_logbook_open(struct plm_logbook **out, struct plm_ledger *ledger,
                                         const struct plm_diag_sink *sink);
/* The ledger stays open. NULL is allowed. */
PLM_API void plm_logbook_free(struct plm_logbook *logbook);

/*
 * What a diver carries at a moment, from all dives of the ledger that had left the water by then.
 *   diver       by plm_name_same
 *   at_utc_ms   [ms] the moment
 *   offset_min  [min] local less UTC there: tells the local day, with which the run of days ends
 *   rules       by which the time since the last dive is spent on air
 *   start       [out] plm_start_from_past; from is a static text
 * Returns: OK; IO, INPUT, MEMORY reported.
 */
PLM_API enum plm_status plm_logbook_start(struct plm_logbook *logbook, const char *diver, int64_t at_utc_ms,
                                          int offset_min, const struct plm_rules *rules, struct plm_start *start);

/*
 * The figures of a debriefed dive, as a ledger keeps them. Pure.
 *   debriefed  with its decompression and its findings
 *   rules      in force, as a rules file
 * Returns: figures; their texts are borrowed: rules, and of debriefed.
 */
PLM_API struct plm_figures plm_logbook_compute(const struct plm_debriefed *debriefed, const char *rules);

/*
 * Lets a debrief begin each dive with what the ledger knows of its diver: sets options->residual_find. A dive whose
 * diver, start or zone is not known is reported on (WARNING), and the file's own word is taken; so it is where the
 * ledger does not know the dive before it in the file. The ledger is not changed. diver    whose dives these are,
 * before what log and card say; borrowed as long as the debrief lives; NULL none options  [in,out] its rules are
 * borrowed as long as the debrief lives
 */
PLM_API void plm_logbook_carry(struct plm_logbook *logbook, const char *diver, struct plm_debrief_options *options);

/*
 * What a diver carries at a moment out of the water.
 *   at           known, with clock and zone
 *   surface_bar  [in,out] [bar] where the diver is; NaN: not given, and it becomes that of the last dive's place, or
 * the rule surface_default_bar where there was none carried      [out] tissue is set also where nothing is carried past
 * [out] the dives that count, oldest first (plm_ledger_entries_before); the caller frees it Returns: OK; INPUT (the
 * diver is under water then, reported); IO, MEMORY reported. *past is NULL then.
 */
PLM_API enum plm_status plm_logbook_due(struct plm_logbook *logbook, const char *diver, const struct plm_stamp *at,
                                        const struct plm_rules *rules, double *surface_bar, struct plm_start *carried,
                                        struct plm_entries **past);

/* How a log that is to be added is read, and what is stated beside it. All is borrowed as long as the log is open. */
struct plm_logbook_options {
    const struct plm_log_options *log; /* its rules are kept beside each record, and figures are made by them for ever;
                                          digest and keep do not count, and no plan is read */
    /* rules, dive_index, plan, start and residual_find do not count */
    const struct plm_debrief_options *debrief;
    const char *diver; /* before what log and card say; NULL: as they say       */
};

struct plm_logbook_log; /* opaque: a log whose dives are being added */

/*
 * Opens a log, whole in memory, with its card.
 *   path  "-" is standard input
 *   sink  for what is read; borrowed as long as the log is open
 * Returns: OK with *out; what plm_log_open and plm_debrief_open return, reported.
 */
PLM_API enum plm_status plm_logbook_log_open(struct plm_logbook_log **out, struct plm_logbook *logbook,
                                             const char *path, const struct plm_logbook_options *options,
                                             const struct plm_diag_sink *sink);
/* The next dive of the log, with its card laid over it. The caller frees *out, or adds it. Returns: as plm_log_next. */
PLM_API enum plm_status plm_logbook_log_take(struct plm_logbook_log *log, struct plm_dive **out);
/* Reports that a dive that was asked for is not there, as plm_log_missing. */
PLM_API void plm_logbook_log_missing(struct plm_logbook_log *log, int dive_index);
/* Whether some of the log was not used, or used with a doubt, as plm_debrief_partial. */
PLM_API bool plm_logbook_log_partial(const struct plm_logbook_log *log);
/* NULL is allowed. */
PLM_API void plm_logbook_log_free(struct plm_logbook_log *log);

/* What became of a dive. RECORD: it is one more record of a dive that was there; BETTER_RECORD: and stands for it, as
 * it is the most complete; KNOWN: this record was there, and nothing was changed. */
enum plm_logbook_added {
    PLM_LOGBOOK_ADDED_NEW,
    PLM_LOGBOOK_ADDED_RECORD,
    PLM_LOGBOOK_ADDED_BETTER_RECORD,
    PLM_LOGBOOK_ADDED_KNOWN
};

/* Texts are cut to fit. */
struct plm_logbook_addition {
    enum plm_logbook_added what;
    char diver[128];
    char name[256];    /* of the dive, by plm_exposure_name */
    char other[256];   /* of the dive that was there; "" none */
    size_t recomputed; /* how many later dives start otherwise by it, and were computed anew */
};

/*
 * Adds a dive to the ledger, in one transaction with all that follows from it: its log and its record are kept, the
 * dive that it is a record of is found by time in the water and profile, the most complete record is made to stand for
 * the dive, and figures are computed from there on.
 *   dive  as plm_logbook_log_take gave it; taken, also where it fails
 * Returns: OK; INPUT (it has no diver, start or zone, or it cannot be of this diver; reported): nothing was changed,
 * and the next one can be added; IO, MEMORY and what plm_debrief_run returns, reported: nothing was changed.
 */
PLM_API enum plm_status plm_logbook_add(struct plm_logbook_log *log, struct plm_dive *dive,
                                        struct plm_logbook_addition *addition);

/*
 * Removes a dive with all its records, and computes what follows from it, in one transaction.
 *   exposure    as the ledger gave it
 *   recomputed  [out] how many later dives start otherwise without it, and were computed anew
 * Returns: OK; INPUT, IO, MEMORY reported: nothing was changed.
 */
PLM_API enum plm_status plm_logbook_remove(struct plm_logbook *logbook, const struct plm_exposure *exposure,
                                           size_t *recomputed);

/* A figure that comes out otherwise than it is stored. */
struct plm_logbook_difference {
    const struct plm_entry *entry; /* as it is stored */
    const char *figure;            /* the first that differs, as in struct plm_figures, or in words; static */
    double stored, computed;       /* in the unit of the figure; NaN unknown or no number */
};
/* Takes a difference, borrowed for the call. */
typedef void plm_logbook_differ(void *context, const struct plm_logbook_difference *difference);

struct plm_logbook_recomputed {
    size_t dives;  /* looked at */
    size_t differ; /* of these  */
};

/*
 * Computes the figures of every dive from the stored logs, by the rules of each, and compares them to the last bit. A
 * dive whose log tells another start, length or time in the water than is stored of it is reported.
 *   renew   figures that differ are put in place of those stored, all or none
 *   differ  called for each dive whose figures differ, in the order of plm_ledger_entries; NULL none
 * Returns: OK, whether figures differ or not; INPUT, IO, MEMORY reported: the worst that happened; the other dives were
 * looked at. With renew nothing is changed unless it is OK.
 */
PLM_API enum plm_status plm_logbook_recompute(struct plm_logbook *logbook, bool renew, plm_logbook_differ *differ,
                                              void *context, struct plm_logbook_recomputed *out);

/* The dive of a stored record, read as when it was added. The caller frees *out. Returns: OK; INPUT, IO, MEMORY
 * reported.
 */
PLM_API enum plm_status plm_logbook_dive(struct plm_logbook *logbook, const struct plm_record *record,
                                         struct plm_dive **out);

/* Whether something was stated beside a log that a card can say. */
PLM_API bool plm_stated_any(const struct plm_stated *stated);
/*
 * Writes a card that says of a stored dive all that was stated beside its log.
 *   dive  of the record, by plm_logbook_dive
 * Returns: OK, or what the sink returns.
 */
PLM_API enum plm_status plm_logbook_card_write(const struct plm_exposure *exposure, const struct plm_record *record,
                                               const struct plm_dive *dive, const struct plm_sink *sink);

#ifdef __cplusplus
}
#endif

#endif
