/*
 * A report being written, and one way of writing it: the table in reports.c says which is for what.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REPORT_VIEW_WRITER_H
#define PLM_REPORT_VIEW_WRITER_H

#include <plimsoll/report.h>

#include "report/view/view.h"
#include "syntax/json.h"

struct plm_report {
    const struct plm_report_format *format;
    const struct plmi_writer *writer;
    struct plm_report_options options;
    const struct plm_sink *sink;
    const struct plm_diag_sink *diag;
    struct plmi_text out; /* goes to the sink and is emptied after every step */
    struct plmi_json json;
    struct plmi_text index;         /* html: of the dives so far */
    size_t dives;                   /* written so far */
    struct plmi_handover *handover; /* of writers that gather dives for one page; NULL */
    size_t logs;                    /* formats: shown so far */
    bool guessed;                   /* formats: something of the last log was */
};

/* Each step adds to report->out; memory that runs out shows there. */
struct plmi_writer {
    void (*begin)(struct plm_report *report); /* NULL: nothing */
    /* By subject: with a view of a dive, from the debriefed dive itself, or in one piece from what it is about (that of
     * plm_report_audit and so on). The others are NULL. */
    void (*add_view)(struct plm_report *report, const struct plmi_view *view);
    enum plm_status (*add_debriefed)(struct plm_report *report, const struct plm_debriefed *debriefed);
    void (*whole)(struct plmi_text *out, const void *what, const struct plm_report_options *options);
    void (*end)(struct plm_report *report);  /* NULL: nothing */
    void (*free)(struct plm_report *report); /* what begin made; NULL: nothing */
};

/* Tells what was asked for and cannot be. Returns: ARGUMENT. */
enum plm_status plmi_writer_refuse(const struct plm_diag_sink *diag, const char *what);
/* Memory ran out for that; shown. Returns: MEMORY. */
enum plm_status plmi_writer_no_memory(const struct plm_diag_sink *diag, const char *what_for);
/* The same of a step that this report does not have. Returns: ARGUMENT. */
enum plm_status plmi_writer_unsuited(const struct plm_report *report);
/* Gives what is in out to the sink. Returns: OK, MEMORY (reported), IO (the sink has reported). */
enum plm_status plmi_writer_flush(struct plm_report *report);

extern const struct plmi_writer plmi_writer_text, plmi_writer_json, plmi_writer_csv, plmi_writer_html;
extern const struct plmi_writer plmi_writer_findings_csv, plmi_writer_trace_csv, plmi_writer_trace_jsonl;
extern const struct plmi_writer plmi_writer_handover_text, plmi_writer_handover_html, plmi_writer_formats_text;

#endif
