/*
 * The table of reports, and the walk through one. Must not know how any of them looks.
 * SPDX-License-Identifier: MIT
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "report/ledger/view.h"
#include "report/output/whole.h"
#include "report/team/audit_view.h"
#include "report/team/reconcile.h"
#include "report/view/writer.h"

/* The writer of a report that is written in one piece. */
#define WHOLE(function) (&(const struct plmi_writer){.whole = (function)})

/* All reports: the first of a subject is what a person gets who does not ask. */
static const struct row {
    struct plm_report_format format;
    const struct plmi_writer *writer;
} rows[] = {
    {{PLM_REPORT_DEBRIEF, "text", "for people"}, &plmi_writer_text},
    {{PLM_REPORT_DEBRIEF, "json", "everything, for programs"}, &plmi_writer_json},
    {{PLM_REPORT_DEBRIEF, "csv", "one row a dive with all figures"}, &plmi_writer_csv},
    {{PLM_REPORT_DEBRIEF, "html", "one page with pictures, for people"}, &plmi_writer_html},
    {{PLM_REPORT_FINDINGS, "csv", "one row a finding"}, &plmi_writer_findings_csv},
    {{PLM_REPORT_TRACE, "csv", "a table, one row a sample"}, &plmi_writer_trace_csv},
    {{PLM_REPORT_TRACE, "jsonl", "one JSON object a line, one line a sample"}, &plmi_writer_trace_jsonl},
    {{PLM_REPORT_HANDOVER, "text", "one page of 66 lines and 80 columns"}, &plmi_writer_handover_text},
    {{PLM_REPORT_HANDOVER, "html", "one page of A4"}, &plmi_writer_handover_html},
    {{PLM_REPORT_FORMATS, "text", "for people"}, &plmi_writer_formats_text},
    {{PLM_REPORT_RECONCILIATION, "text", "for people"}, WHOLE(plmi_reconciliation_text)},
    {{PLM_REPORT_RECONCILIATION, "json", "everything, for programs"}, WHOLE(plmi_reconciliation_json)},
    {{PLM_REPORT_AUDIT, "text", "for people"}, WHOLE(plmi_audit_text)},
    {{PLM_REPORT_AUDIT, "json", "everything, for programs"}, WHOLE(plmi_audit_json)},
    {{PLM_REPORT_AUDIT, "csv", "one row a record"}, WHOLE(plmi_audit_csv)},
    {{PLM_REPORT_AUDIT, "html", "one page, for people"}, WHOLE(plmi_audit_html)},
    {{PLM_REPORT_LEDGER_LIST, "text", "for people"}, WHOLE(plmi_ledger_list_text)},
    {{PLM_REPORT_LEDGER_LIST, "json", "everything, for programs"}, WHOLE(plmi_ledger_list_json)},
    {{PLM_REPORT_LEDGER_LIST, "csv", "one row a dive"}, WHOLE(plmi_ledger_list_csv)},
    {{PLM_REPORT_LEDGER_SHOW, "text", "for people"}, WHOLE(plmi_ledger_show_text)},
    {{PLM_REPORT_LEDGER_SHOW, "json", "everything, for programs"}, WHOLE(plmi_ledger_show_json)},
    {{PLM_REPORT_LEDGER_SHOW, "csv", "one row a day"}, WHOLE(plmi_ledger_show_csv)},
    {{PLM_REPORT_LEDGER_SHOW, "html", "one page with pictures, for people"}, WHOLE(plmi_ledger_show_html)},
    {{PLM_REPORT_LEDGER_DUE, "text", "for people"}, WHOLE(plmi_ledger_due_text)},
    {{PLM_REPORT_LEDGER_DUE, "json", "everything, for programs"}, WHOLE(plmi_ledger_due_json)},
    {{PLM_REPORT_LEDGER_DUE, "csv", "one row"}, WHOLE(plmi_ledger_due_csv)},
};

#define ROWS_COUNT (sizeof rows / sizeof rows[0])

size_t plm_report_format_count(void)
{
    return ROWS_COUNT;
}

const struct plm_report_format *plm_report_format_get(size_t index)
{
    return index < ROWS_COUNT ? &rows[index].format : NULL;
}

/* NULL: the first of the subject. */
static const struct row *row_find(enum plm_report_subject subject, const char *name)
{
    for (size_t i = 0; i < ROWS_COUNT; i++) {
        if (rows[i].format.subject == subject && (name == NULL || strcmp(rows[i].format.name, name) == 0)) {
            return &rows[i];
        }
    }
    return NULL;
}

const struct plm_report_format *plm_report_format_find(enum plm_report_subject subject, const char *name)
{
    const struct row *row = row_find(subject, name);
    return row != NULL ? &row->format : NULL;
}

const char *plm_report_format_names(enum plm_report_subject subject, const char *between, const char *last,
                                    char *buffer, size_t size)
{
    size_t count = 0, shown = 0, length = 0;
    for (size_t i = 0; i < ROWS_COUNT; i++) {
        count += rows[i].format.subject == subject;
    }
    buffer[0] = '\0';
    for (size_t i = 0; i < ROWS_COUNT && length < size; i++) {
        if (rows[i].format.subject == subject) {
            const char *before = shown == 0 ? "" : shown + 1 == count ? last : between;
            length += (size_t)snprintf(buffer + length, size - length, "%s%s", before, rows[i].format.name);
            shown++;
        }
    }
    return buffer;
}

struct plm_report_options plm_report_options_default(const struct plm_rules *rules)
{
    return (struct plm_report_options){.rules = rules, .schedules = true, .columns = 80};
}

enum plm_status plm_report_open(struct plm_report **out, enum plm_report_subject subject, const char *format,
                                const struct plm_report_options *options, const struct plm_sink *sink,
                                const struct plm_diag_sink *diag)
{
    *out = NULL;
    const struct row *row = row_find(subject, format);
    if (row == NULL) {
        return plmi_writer_refuse(diag, "no report of this name is known");
    }
    struct plm_report *report = calloc(1, sizeof *report);
    if (report == NULL) {
        return plmi_writer_no_memory(diag, "for the report");
    }
    report->format = &row->format;
    report->writer = row->writer;
    report->options = *options;
    report->sink = sink;
    report->diag = diag;
    plmi_whole_init(&report->out, row->format.name);
    plmi_text_init(&report->index);
    if (row->writer->begin != NULL) {
        row->writer->begin(report);
    }
    enum plm_status status = plmi_writer_flush(report);
    if (status != PLM_STATUS_OK) {
        plm_report_free(report);
        return status;
    }
    *out = report;
    return PLM_STATUS_OK;
}

enum plm_status plm_report_add(struct plm_report *report, const struct plm_debriefed *debriefed)
{
    const struct plmi_writer *writer = report->writer;
    if (writer->add_debriefed != NULL) {
        report->dives++;
        return writer->add_debriefed(report, debriefed);
    }
    if (writer->add_view == NULL) {
        return plmi_writer_unsuited(report);
    }
    struct plmi_view *view = NULL;
    if (plmi_view_new(&view, debriefed) != PLM_STATUS_OK) {
        return plmi_writer_no_memory(report->diag, "for the report");
    }
    writer->add_view(report, view);
    report->dives++;
    plmi_view_free(view);
    return plmi_writer_flush(report);
}

/* A report in one piece, where it is one of this subject. */
static enum plm_status whole_add(struct plm_report *report, enum plm_report_subject subject, const void *what)
{
    if (report->format->subject != subject) {
        return plmi_writer_unsuited(report);
    }
    report->writer->whole(&report->out, what, &report->options);
    return plmi_writer_flush(report);
}

enum plm_status plm_report_reconciliation(struct plm_report *report, const struct plm_report_reconciled *what)
{
    return whole_add(report, PLM_REPORT_RECONCILIATION, what);
}

enum plm_status plm_report_audit(struct plm_report *report, const struct plm_report_audited *what)
{
    return whole_add(report, PLM_REPORT_AUDIT, what);
}

enum plm_status plm_report_ledger_list(struct plm_report *report, const struct plm_ledger_listed *what)
{
    return whole_add(report, PLM_REPORT_LEDGER_LIST, what);
}

enum plm_status plm_report_ledger_show(struct plm_report *report, const struct plm_ledger_shown *what)
{
    return whole_add(report, PLM_REPORT_LEDGER_SHOW, what);
}

enum plm_status plm_report_ledger_due(struct plm_report *report, const struct plm_ledger_due *what)
{
    return whole_add(report, PLM_REPORT_LEDGER_DUE, what);
}

enum plm_status plm_report_finish(struct plm_report *report)
{
    if (report->writer->end != NULL) {
        report->writer->end(report);
    }
    return plmi_writer_flush(report);
}

void plm_report_free(struct plm_report *report)
{
    if (report == NULL) {
        return;
    }
    if (report->writer->free != NULL) {
        report->writer->free(report);
    }
    plmi_text_free(&report->out);
    plmi_text_free(&report->index);
    free(report);
}

enum plm_status plm_report_write(enum plm_report_subject subject, const char *format,
                                 const struct plm_report_options *options, const struct plm_debriefed *debriefed,
                                 const struct plm_sink *sink, const struct plm_diag_sink *diag)
{
    struct plm_report *report = NULL;
    enum plm_status status = plm_report_open(&report, subject, format, options, sink, diag);
    if (status == PLM_STATUS_OK) {
        status = plm_report_add(report, debriefed);
    }
    if (status == PLM_STATUS_OK) {
        status = plm_report_finish(report);
    }
    plm_report_free(report);
    return status;
}
