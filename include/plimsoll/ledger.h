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

struct plm_ledger;   /* opaque: an open ledger; one thread at a time */

enum plm_ledger_mode { PLM_LEDGER_READ, PLM_LEDGER_WRITE };   /* WRITE makes the file where there is none */

/*
 * Opens a ledger. Waits up to ten seconds for another process that writes.
 * Returns: OK; IO (cannot be opened, read-only, no space), INPUT (not a ledger, damaged, or of a newer version of Plimsoll); reported.
 */
PLM_API enum plm_status plm_ledger_open(struct plm_ledger **out, const char *path, enum plm_ledger_mode mode, const struct plm_diag_sink *sink);
/* Closes; an open transaction is undone. NULL is allowed. */
PLM_API void plm_ledger_close(struct plm_ledger *ledger);

/* One transaction: all that is changed between is there afterwards, or nothing of it. The others wait. */
PLM_API enum plm_status plm_ledger_begin(struct plm_ledger *ledger);
/* Ends it: from here on it is there for all. */
PLM_API enum plm_status plm_ledger_commit(struct plm_ledger *ledger);
/* Undoes what was changed since _begin; nothing to undo is allowed. */
PLM_API void plm_ledger_undo(struct plm_ledger *ledger);

/* A dive of a diver: the exposure, whichever recorders saw it. Times are UTC; the zone is kept beside. */
struct plm_exposure {
    int64_t id;               /* 0: not stored yet                                        */
    const char *diver;        /* any case is one diver; the first spelling is kept        */
    int64_t start_utc_ms;
    int offset_min;           /* [min] local less UTC at the place of the dive             */
    int64_t duration_ms;
    const char *log_sha256;   /* of the record that the figures are made of               */
    int log_index;            /* [from 1] dive within that log                            */
};

/* What was computed of an exposure, with what made it. */
struct plm_figures {
    const char *program, *rules;          /* version; rules in force as text              */
    double surface_bar, max_depth_m, mean_depth_m;
    double surface_interval_s;            /* NaN none                                     */
    double surfacing_gradient_pct, peak_gradient_pct;
    double cns_start_pct, cns_pct, cns_day_pct, otu, esot, max_po2_bar;
    double owed_min, done_min;            /* NaN unknown                                  */
    int serious, caution, note;           /* findings                                     */
    const char *worst;                    /* the first finding in a sentence; NULL none   */
    struct plm_tissue start, end;         /* tensions before, and at the last sample       */
};

/* A stored log: its bytes as they were read. */
struct plm_ledger_log {
    const char *sha256, *name;            /* name: the last part of the file's name       */
    const void *bytes;
    size_t count;
};

/* One recorder's view of an exposure. */
struct plm_record {
    int64_t exposure;
    const char *log_sha256;
    int log_index;
    const char *recorder;                 /* NULL unknown                                 */
    const char *card;                     /* text of the card that was laid over it; NULL */
    const char *options;                  /* what was told beside the log, as text; NULL   */
    bool best;                            /* figures are made of this one                 */
};

/* Keeps a log, compressed; the same bytes once. */
PLM_API enum plm_status plm_ledger_log_put(struct plm_ledger *ledger, const struct plm_ledger_log *log);
/* The bytes of a log, checked against their hash. The caller frees *bytes with free(). INPUT (reported): not there or damaged. */
PLM_API enum plm_status plm_ledger_log_get(struct plm_ledger *ledger, const char *sha256, void **bytes, size_t *count);
/* Name under which a log was stored, copied; "" unknown. */
PLM_API enum plm_status plm_ledger_log_name(struct plm_ledger *ledger, const char *sha256, char *name, size_t size);
/* Whether some record is of this dive of this log. */
PLM_API bool plm_ledger_has(struct plm_ledger *ledger, const char *sha256, int log_index);

/* Stores an exposure, the diver made as needed; exposure->id is filled. */
PLM_API enum plm_status plm_ledger_exposure_put(struct plm_ledger *ledger, struct plm_exposure *exposure);
/* Changes start, duration and record of a stored one. */
PLM_API enum plm_status plm_ledger_exposure_change(struct plm_ledger *ledger, const struct plm_exposure *exposure);
/* Stores a record of an exposure; one that is there already only changes whether it is the best. */
PLM_API enum plm_status plm_ledger_record_put(struct plm_ledger *ledger, const struct plm_record *record);
/* Stores figures in place of those that were there. */
PLM_API enum plm_status plm_ledger_figures_put(struct plm_ledger *ledger, int64_t exposure, const struct plm_figures *figures);
/* Removes an exposure with its records and figures, and logs that nothing names any more. */
PLM_API enum plm_status plm_ledger_exposure_remove(struct plm_ledger *ledger, int64_t exposure);

/* Takes one thing found; what it is handed is borrowed for the call. Returns: false to stop. */
typedef bool plm_ledger_exposure_take(void *context, const struct plm_exposure *exposure, const struct plm_figures *figures);
typedef bool plm_ledger_record_take(void *context, const struct plm_record *record);
typedef bool plm_ledger_diver_take(void *context, const char *diver, int64_t dives, int64_t first_utc_ms, int64_t last_utc_ms);

/*
 * Exposures with figures in the order of their start.
 *   diver  NULL: of all, by diver
 *   from_utc_ms, to_utc_ms  start in [from, to)
 */
PLM_API enum plm_status plm_ledger_exposures(struct plm_ledger *ledger, const char *diver, int64_t from_utc_ms, int64_t to_utc_ms,
                                             plm_ledger_exposure_take *take, void *context);
/* The records of an exposure, the best first. */
PLM_API enum plm_status plm_ledger_records(struct plm_ledger *ledger, int64_t exposure, plm_ledger_record_take *take, void *context);
/* All divers by name. */
PLM_API enum plm_status plm_ledger_divers(struct plm_ledger *ledger, plm_ledger_diver_take *take, void *context);

/* The file's own integrity, foreign keys, and every log against its hash; each fault is reported. Returns: OK where all is sound, INPUT. */
PLM_API enum plm_status plm_ledger_check(struct plm_ledger *ledger);

#endif
