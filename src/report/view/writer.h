/*
 * One way of writing a report: a const row of the table in reports.c.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REPORT_VIEW_WRITER_H
#define PLM_REPORT_VIEW_WRITER_H

#include <plimsoll/report.h>

#include "report/view/view.h"
#include "syntax/json.h"

struct plm_report {
    const struct plmi_writer *writer;
    struct plm_report_options options;
    const struct plm_sink *sink;
    const struct plm_diag_sink *diag;
    struct plmi_text out; /* goes to the sink and is emptied after every step */
    struct plmi_json json;
    struct plmi_text index;         /* html: of the dives so far */
    size_t dives;                   /* written so far */
    struct plmi_handover *handover; /* of writers that gather dives for one page; NULL */
};

/* Each step adds to report->out; memory that runs out shows there. */
struct plmi_writer {
    struct plm_report_format format;
    void (*begin)(struct plm_report *report); /* NULL: nothing */
    /* By subject: with a view, or from the debriefed dive itself. The other is NULL. */
    void (*add_view)(struct plm_report *report, const struct plmi_view *view);
    enum plm_status (*add_trace)(struct plm_report *report, const struct plm_debriefed *debriefed);
    void (*end)(struct plm_report *report);  /* NULL: nothing */
    void (*free)(struct plm_report *report); /* what begin made; NULL: nothing */
};

/* Tells what failed. Returns: status. */
enum plm_status plmi_writer_fail(const struct plm_diag_sink *diag, enum plm_status status, const char *what);
/* Gives what is in out to the sink. Returns: OK, MEMORY (reported), IO (the sink has reported). */
enum plm_status plmi_writer_flush(struct plm_report *report);

extern const struct plmi_writer plmi_writer_text;
extern const struct plmi_writer plmi_writer_json;
extern const struct plmi_writer plmi_writer_csv;
extern const struct plmi_writer plmi_writer_html;
extern const struct plmi_writer plmi_writer_findings_csv;
extern const struct plmi_writer plmi_writer_trace_csv;
extern const struct plmi_writer plmi_writer_trace_jsonl;
extern const struct plmi_writer plmi_writer_handover_text;
extern const struct plmi_writer plmi_writer_handover_html;

#endif
