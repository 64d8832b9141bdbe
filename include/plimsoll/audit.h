/*
 * A folder of everybody's logs: found by content, debriefed in parallel, put side by side. A frozen value.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_AUDIT_H
#define PLM_AUDIT_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include <plimsoll/debrief.h>
#include <plimsoll/reconcile.h>

#ifdef __cplusplus
extern "C" {
#endif

/* Points of the small picture of a dive. */
#define PLM_PICTURE 96

/* One dive of one recorder. Texts are owned by the audit. */
struct plm_audit_row {
    const char *file;        /* as found                                          */
    const char *card, *plan; /* files that were laid beside it, NULL none         */
    char sha256[65];
    int index;                           /* [from 1] within the file                          */
    const char *diver, *recorder, *site; /* NULL unknown                           */
    struct plm_stamp start;
    char date[11]; /* local day, "2031-05-06"; "" unknown               */
    double duration_s, max_depth_m, surfacing_gradient_pct /* NaN: the record ends in the water */, peak_gradient_pct,
        cns_pct, cns_day_pct, otu, esot;
    /* by which it was judged, each diver's own where stated, and who states them */
    double gf_low_pct, gf_high_pct;
    enum plm_factors_from factors_from;
    double cns_beyond_min; /* beyond the table of oxygen limits, what was carried in included: above 0 cns_pct is the
                              least that it can be */
    double owed_min, done_min;     /* decompression; NaN unknown                        */
    double otu_of_day;             /* of this diver on this day, all dives              */
    bool residual;                 /* began with a carried state                        */
    size_t serious, caution, note; /* findings                                          */
    size_t disagreements;          /* among them: what this dive's recorders tell differently */
    /* the weightiest of these; its text is NULL where there is none, a and b are not kept */
    struct plm_difference disagreement;
    bool has_worst;
    struct plm_finding worst; /* the first finding; its texts are the audit's      */
    int team;                 /* [from 1] team dive it belongs to                  */
    long other_record;        /* row with the more complete record of this dive; -1: this is it */
    /* to add to this recorder's clock so that it fits its team or the diver's other recorder, a note; NaN no doubt */
    double clock_offset_s;
    double picture_depth_m[PLM_PICTURE], picture_ceiling_m[PLM_PICTURE]; /* deepest in each piece of the duration */
};

/* A file that could not be read, or only in part, or what could not be searched. reported: it has been reported, too.
 */
struct plm_audit_trouble {
    const char *file, *text;
    bool partly, reported;
};

struct plm_audit; /* opaque, immutable */

/* Made by plm_audit_options_default. Pointers are borrowed during the call. */
struct plm_audit_options {
    const struct plm_log_options *log;         /* how each file is read; NULL: with the card and the plan beside it */
    const struct plm_debrief_options *debrief; /* for each file; carried is called by one thread at a time          */
    size_t jobs;                               /* threads, 1..256; results do not depend on it */
    const char *diver;                         /* only this one; NULL all */
    int64_t since_ms;                          /* only dives that start at or after, local; INT64_MIN all */
    /* Each dive while it is there, as for a page of its own; called by one thread at a time, in no order. NULL none. */
    enum plm_status (*each)(void *context, const struct plm_debriefed *dive, const struct plm_audit_row *row);
    /* Files done, of how many; called by one thread at a time. NULL none. */
    void (*progress)(void *context, size_t done, size_t count);
    void *context;
};
/* One thread, every diver, all dives, no callbacks. */
PLM_API struct plm_audit_options plm_audit_options_default(const struct plm_debrief_options *debrief);

/*
 * Searches the paths and debriefs what is a log. Folders are walked in the order of names; links to folders are not
 * followed; whatever is no log is passed over and counted; a bad file is listed and stops nothing.
 * Returns: OK and *out even where every file is bad; IO and *out where a path cannot be read
 *          (reported) or `each` failed; MEMORY.
 */
PLM_API enum plm_status plm_audit(struct plm_audit **out, const char *const *paths, size_t count,
                                  const struct plm_audit_options *options, const struct plm_diag_sink *sink);
/* All rows, worst first: serious findings, then cautions, notes, surfacing gradient, then start, diver, file. */
PLM_API const struct plm_audit_row *plm_audit_rows(const struct plm_audit *audit, size_t *count);
/* Files with trouble in the order of names. */
PLM_API const struct plm_audit_trouble *plm_audit_troubles(const struct plm_audit *audit, size_t *count);
/* Files that were no logs. */
PLM_API size_t plm_audit_passed_over(const struct plm_audit *audit);
/* Files read as logs, whole or in part. */
PLM_API size_t plm_audit_files(const struct plm_audit *audit);
/* NULL is allowed. */
PLM_API void plm_audit_free(struct plm_audit *audit);

#ifdef __cplusplus
}
#endif

#endif
