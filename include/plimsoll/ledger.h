/*
 * The exposure ledger: every diver's dives, the logs they came from, and what was computed of them, in one SQLite file.
 * Stores and finds; computes nothing: figures and states are handed in.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_LEDGER_H
#define PLM_LEDGER_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include <plimsoll/api.h>
#include <plimsoll/diag.h>
#include <plimsoll/status.h>
#include <plimsoll/tissue.h>

#ifdef __cplusplus
extern "C" {
#endif

struct plm_ledger; /* opaque: an open ledger; one thread at a time */

/* READ: nothing is changed, not even on the way. CHANGE: it must be there. MAKE: it is made where there is none. */
enum plm_ledger_mode { PLM_LEDGER_READ, PLM_LEDGER_CHANGE, PLM_LEDGER_MAKE };

/*
 * Opens a ledger. It is a regular file, made for its owner alone (mode 0600), whatever it is called; ":memory:", no
 * name and what is no regular file are refused. Where another program writes, every call waits for it, up to ten
 * minutes; a wait of seconds is reported.
 * Returns: OK; IO (cannot be opened, read-only, no space), INPUT (not a ledger, its tables not to the letter ours,
 * damaged, or of a newer version of Plimsoll); reported.
 */
PLM_API enum plm_status plm_ledger_open(struct plm_ledger **out, const char *path, enum plm_ledger_mode mode,
                                        const struct plm_diag_sink *sink);
/* [bytes] largest log that is read out of the ledger, as it was before it was compressed; by the rule file_max_mb
 * unless given. */
PLM_API void plm_ledger_log_limit(struct plm_ledger *ledger, int64_t max_bytes);
/* Closes; an open transaction is undone. NULL is allowed. */
PLM_API void plm_ledger_close(struct plm_ledger *ledger);

/* One transaction: all that is changed between is there afterwards, or nothing of it. The others wait. */
PLM_API enum plm_status plm_ledger_begin(struct plm_ledger *ledger);
/* Ends it: from here on it is there for all. */
PLM_API enum plm_status plm_ledger_commit(struct plm_ledger *ledger);
/* Undoes what was changed since _begin; nothing to undo is allowed. */
PLM_API void plm_ledger_undo(struct plm_ledger *ledger);

/* When a dive was. Times are UTC; the zone is kept beside. */
struct plm_dive_span {
    int64_t start_utc_ms;
    int offset_min;                 /* [min] local less UTC at the place of the dive              */
    int64_t duration_ms;            /* of the whole record                                        */
    int64_t wet_from_ms, wet_to_ms; /* under water, since the start                       */
};

/* When the diver goes under water. This and the coming up order dives and part them, since a record may begin long
 * before and end long after. */
PLM_API int64_t plm_span_down_utc_ms(const struct plm_dive_span *span);
/* When the diver comes up. */
PLM_API int64_t plm_span_up_utc_ms(const struct plm_dive_span *span);

/* A dive of a diver: the exposure, whichever recorders saw it. */
struct plm_exposure {
    int64_t id;        /* 0: not stored yet; never given to another one              */
    const char *diver; /* by plm_name_same; the first spelling is kept, plm_name_normal */
    struct plm_dive_span
        span; /* of the record that the figures are made of, as is what follows; filled by the ledger */
    const char *log_sha256, *log_name;
    int log_index; /* [from 1] dive within that log                              */
    size_t record_count;
};

/* "dive 2 of quill.uddf, 2031-05-07T14:40:03+11:00", cut to size bytes. Returns: buffer. */
PLM_API char *plm_exposure_name(const struct plm_exposure *exposure, char *buffer, size_t size);

/* What was computed of an exposure, with what made it. NaN unknown. */
struct plm_figures {
    const char *program, *rules; /* version; rules in force, as a rules file       */
    double surface_bar, max_depth_m, mean_depth_m;
    double surfacing_gradient_pct, peak_gradient_pct, max_po2_bar;
    double owed_min, done_min;     /* decompression                                  */
    double cns_pct;                /* at the end, what was carried in included       */
    double cns_day_pct, otu, esot; /* doses of this dive alone                       */
    double cns_beyond_min;         /* of this dive beyond the table of oxygen limits */
    /* What was carried in. */
    /* _before: of 24 hours */
    double surface_interval_s, cns_start_pct, cns_day_before_pct, otu_before, esot_before;
    double cns_beyond_before_min; /* beyond the table in these 24 h */
    double otu_run;               /* of the run of days before this dive            */
    int otu_run_days;             /* of the run, this dive's day included; 0 where nothing was carried */
    double start_anchor_bar, end_anchor_bar;
    size_t serious, caution, note; /* findings                                       */
    const char *worst;             /* the first finding in a sentence; NULL none     */
    struct plm_tissue start, end;  /* tensions before, and on leaving the water      */
};

/* A stored log: its bytes as they were read. */
struct plm_ledger_log {
    const char *sha256, *name; /* name: the last part of the file's name         */
    const void *bytes;
    size_t count;
};

/* What was stated beside a log and its card when it was added. NULL, NaN, 0, false: not given. */
struct plm_stated {
    const char *diver, *start, *zone; /* as the options of those names                  */
    double surface_bar, altitude_m, water_kg_m3;
    const char *columns, *date_order;
    double interval_s;
    bool zero_auto;
};

/* One recorder's view of an exposure. */
struct plm_record {
    int64_t exposure;
    const char *log_sha256, *log_name; /* log_name is found, not stored with the record  */
    int log_index;
    const char *recorder; /* NULL unknown                                   */
    const char *card;     /* text of the card that was laid over it; NULL   */
    const char *rules;    /* in force when it was added, as a rules file    */
    struct plm_stated stated;
    struct plm_dive_span span;
    double covered_s, step_s; /* how complete it is: as struct plm_completeness        */
    size_t cells;
    bool gas, best; /* best: figures are made of this one             */
};

/* Keeps a log, compressed; the same bytes once. */
PLM_API enum plm_status plm_ledger_log_put(struct plm_ledger *ledger, const struct plm_ledger_log *log);
/* The bytes of a log, checked against their hash. The caller frees *bytes with free(). INPUT (reported): not there or
 * damaged. */
PLM_API enum plm_status plm_ledger_log_get(struct plm_ledger *ledger, const char *sha256, void **bytes, size_t *count);
/* The exposure that has a record of this dive of this log; 0: none. */
PLM_API enum plm_status plm_ledger_record_find(struct plm_ledger *ledger, const char *sha256, int log_index,
                                               int64_t *exposure);

/* Stores an exposure for a record that follows, the diver made as needed; exposure->id is filled. Only diver and span
 * are looked at. Tells (DIVER_NAME) of a name that is spelled nearly as a known one: case makes no other diver, accents
 * do. */
PLM_API enum plm_status plm_ledger_exposure_put(struct plm_ledger *ledger, struct plm_exposure *exposure);
/* Stores a record of an exposure, not the best one. */
PLM_API enum plm_status plm_ledger_record_put(struct plm_ledger *ledger, const struct plm_record *record);
/* Makes a stored record the best of its exposure, whose span becomes the record's. */
PLM_API enum plm_status plm_ledger_record_choose(struct plm_ledger *ledger, const struct plm_record *record);
/* Stores figures in place of those that were there. */
PLM_API enum plm_status plm_ledger_figures_put(struct plm_ledger *ledger, int64_t exposure,
                                               const struct plm_figures *figures);
/* Removes an exposure with its records and figures, and what nothing names any more: logs, rules, divers. */
PLM_API enum plm_status plm_ledger_exposure_remove(struct plm_ledger *ledger, int64_t exposure);

/* An exposure as it is found. has_figures is false only within the transaction that put it in. */
struct plm_entry {
    struct plm_exposure exposure;
    struct plm_figures figures;
    bool has_figures;
};
struct plm_entries; /* opaque, immutable: entries and all their texts */

/*
 * Exposures in the order in which they go under water; of all divers: by diver, then that.
 *   diver  NULL: of all
 *   from_utc_ms, to_utc_ms  under water from a moment in [from, to) on
 * Returns: OK and *out (the caller frees); IO, INPUT, MEMORY reported.
 */
PLM_API enum plm_status plm_ledger_entries(struct plm_entries **out, struct plm_ledger *ledger, const char *diver,
                                           int64_t from_utc_ms, int64_t to_utc_ms);
/* The one of this id; none where there is no such. */
PLM_API enum plm_status plm_ledger_entry(struct plm_entries **out, struct plm_ledger *ledger, int64_t exposure);
/* What counts for a dive that goes under water then: all before it, back to the first three days without a dive, and at
 * least one. */
PLM_API enum plm_status plm_ledger_entries_before(struct plm_entries **out, struct plm_ledger *ledger,
                                                  const char *diver, int64_t down_utc_ms);
/* What a dive that goes under water then is computed from: those before it that had left the water within the 24 h
 * before, and one more at least. */
PLM_API enum plm_status plm_ledger_entries_recent(struct plm_entries **out, struct plm_ledger *ledger,
                                                  const char *diver, int64_t down_utc_ms);
/* The first dive behind the one of this moment and id, in the order of plm_ledger_entries; id 0: from that moment on.
 * None at the end. */
PLM_API enum plm_status plm_ledger_entry_behind(struct plm_entries **out, struct plm_ledger *ledger, const char *diver,
                                                int64_t down_utc_ms, int64_t exposure);
/* Those under water at some moment of [from, to). */
PLM_API enum plm_status plm_ledger_entries_wet(struct plm_entries **out, struct plm_ledger *ledger, const char *diver,
                                               int64_t from_utc_ms, int64_t to_utc_ms);
/* All of them; *count can be 0. */
PLM_API const struct plm_entry *plm_entries_get(const struct plm_entries *entries, size_t *count);
/* NULL is allowed. */
PLM_API void plm_entries_free(struct plm_entries *entries);

struct plm_records; /* opaque, immutable: records and all their texts */
/* The records of an exposure by hash and index, whatever the order in which they came in. The caller frees *out. */
PLM_API enum plm_status plm_ledger_records(struct plm_records **out, struct plm_ledger *ledger, int64_t exposure);
/* All of them; *count can be 0. */
PLM_API const struct plm_record *plm_records_get(const struct plm_records *records, size_t *count);
/* NULL is allowed. */
PLM_API void plm_records_free(struct plm_records *records);

/* Takes a log's hash and name, borrowed for the call. Returns: false to stop. */
typedef bool plm_ledger_log_take(void *context, const char *sha256, const char *name);
/* All logs by their hash. */
PLM_API enum plm_status plm_ledger_logs(struct plm_ledger *ledger, plm_ledger_log_take *take, void *context);

/*
 * The file's own integrity, foreign keys, every field against its range, every log against its hash, and whether what
 * is stored fits together: one best record and figures for each dive, no diver in the water twice at a time. Each fault
 * is reported. Returns: OK where all is sound, INPUT.
 */
PLM_API enum plm_status plm_ledger_check(struct plm_ledger *ledger);

#ifdef __cplusplus
}
#endif

#endif
