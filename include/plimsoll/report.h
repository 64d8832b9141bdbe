/*
 * Reports for people and for programs: text, JSON, CSV, HTML. All are opened, finished and freed in one way; what one
 * is about is added by plm_report_add (dives), or by a function of report_team.h, report_ledger.h or report_formats.h.
 * Nothing is computed anew and nothing of the machine (clock, locale, path) gets in.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REPORT_H
#define PLM_REPORT_H

#include <plimsoll/debrief.h>
#include <plimsoll/sink.h>

#ifdef __cplusplus
extern "C" {
#endif

struct plm_report; /* opaque: a report being written */

/* What a report is about. */
enum plm_report_subject {
    PLM_REPORT_DEBRIEF,        /* what happened and what was exceeded; any number of dives  */
    PLM_REPORT_FINDINGS,       /* one row a finding; any number of dives                    */
    PLM_REPORT_TRACE,          /* the replay, sample by sample                              */
    PLM_REPORT_HANDOVER,       /* one page on the last dive of one diver, for the doctor    */
    PLM_REPORT_FORMATS,        /* the formats that are read, or what was understood of logs */
    PLM_REPORT_RECONCILIATION, /* records of one dive laid over each other                  */
    PLM_REPORT_AUDIT,          /* folders of a team's logs, worst first                     */
    PLM_REPORT_LEDGER_LIST,    /* what an exposure ledger holds                             */
    PLM_REPORT_LEDGER_SHOW,    /* a diver's days                                            */
    PLM_REPORT_LEDGER_DUE      /* what a diver carries at a moment                          */
};

/* One line of the table of reports. */
struct plm_report_format {
    enum plm_report_subject subject;
    const char *name;    /* as --format names it: "text", "json", "csv"               */
    const char *summary; /* one line without a full stop                              */
};

/* The table; the first of a subject is what a person gets who does not ask. */
PLM_API size_t plm_report_format_count(void);
/* Static; NULL beyond the end. */
PLM_API const struct plm_report_format *plm_report_format_get(size_t index);
/* The line of this name under a subject, or its first where name is NULL; NULL where there is none. */
PLM_API const struct plm_report_format *plm_report_format_find(enum plm_report_subject subject, const char *name);
/*
 * The names of a subject's formats, in the order of the table.
 *   between  stands between two of them
 *   last     stands before the last instead
 *   buffer   [size] cut to fit, always terminated; 64 bytes hold any
 * Returns: buffer.
 */
PLM_API const char *plm_report_format_names(enum plm_report_subject subject, const char *between, const char *last,
                                            char *buffer, size_t size);

/* A dive of the same diver that no log given tells, as a ledger keeps it. NaN unknown. */
struct plm_report_exposure {
    struct plm_stamp start;
    double duration_s; /* until the diver was at the surface                   */
    double max_depth_m, surfacing_gradient_pct, cns_pct;
    bool cns_at_least; /* oxygen beyond the table of limits is in cns_pct */
};

struct plm_report_options {
    const struct plm_rules *rules; /* those of the debrief; never NULL, borrowed while the report lives */
    bool schedules;                /* the trace has times to surface: they get columns     */
    bool colour;                   /* text: mark severities with colours of the terminal   */
    bool verbose;                  /* text: what each kind means and what to ask the diver */
    bool ascii;                    /* text: plain letters even in pictures                 */
    /* handover: whose dives these are where logs do not say; NULL; borrowed while the report lives */
    const char *diver;
    int columns; /* text: width of pictures, 40..100                      */
};
/* Plain text: no colour, 80 columns. */
PLM_API struct plm_report_options plm_report_options_default(const struct plm_rules *rules);

/*
 * Opens a report and writes what stands before the first dive.
 *   format   a name of the table under this subject; NULL: its first
 *   sink     borrowed while the report lives
 * Returns: OK; ARGUMENT (no such format, reported), MEMORY, IO (the sink has reported).
 */
PLM_API enum plm_status plm_report_open(struct plm_report **out, enum plm_report_subject subject, const char *format,
                                        const struct plm_report_options *options, const struct plm_sink *sink,
                                        const struct plm_diag_sink *diag);
/* Writes one dive; a debriefed dive without findings (replay_only) suits PLM_REPORT_TRACE alone. Returns: OK; ARGUMENT
 * (a report that is not about dives, reported), MEMORY, IO. */
PLM_API enum plm_status plm_report_add(struct plm_report *report, const struct plm_debriefed *debriefed);
/*
 * For PLM_REPORT_HANDOVER, behind the last dive added: dives of the same diver from elsewhere, as from a ledger. Those
 * that a log stated are found to be the same.
 * Returns: OK; ARGUMENT (another report, reported), MEMORY (reported).
 */
PLM_API enum plm_status plm_report_earlier(struct plm_report *report, const struct plm_report_exposure *list,
                                           size_t count);
/* Writes what stands behind the last dive. Returns: OK, MEMORY, IO. The caller still frees. */
PLM_API enum plm_status plm_report_finish(struct plm_report *report);
/* NULL is allowed. */
PLM_API void plm_report_free(struct plm_report *report);

/*
 * A whole report of one dive: opened, written and freed.
 * Returns: as plm_report_open, plm_report_add and plm_report_finish.
 */
PLM_API enum plm_status plm_report_write(enum plm_report_subject subject, const char *format,
                                         const struct plm_report_options *options,
                                         const struct plm_debriefed *debriefed, const struct plm_sink *sink,
                                         const struct plm_diag_sink *diag);

#ifdef __cplusplus
}
#endif

#endif
