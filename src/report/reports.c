/*
 * The table of reports, and the walk through one. Must not know how any of them looks.
 * SPDX-License-Identifier: MIT
 */
#include <stdlib.h>
#include <string.h>

#include "report/output/whole.h"
#include "report/view/writer.h"

static const struct plmi_writer *const writers[] = {
    &plmi_writer_text,        &plmi_writer_json,          &plmi_writer_csv,
    &plmi_writer_html,        &plmi_writer_findings_csv,  &plmi_writer_trace_csv,
    &plmi_writer_trace_jsonl, &plmi_writer_handover_text, &plmi_writer_handover_html,
};

#define WRITERS_COUNT (sizeof writers / sizeof writers[0])

size_t plm_report_format_count(void)
{
    return WRITERS_COUNT;
}

const struct plm_report_format *plm_report_format_get(size_t index)
{
    return index < WRITERS_COUNT ? &writers[index]->format : NULL;
}

struct plm_report_options plm_report_options_default(const struct plm_rules *rules)
{
    return (struct plm_report_options){.rules = rules, .schedules = true, .columns = 80};
}

static const struct plmi_writer *writer_find(enum plm_report_subject subject, const char *name)
{
    for (size_t i = 0; i < WRITERS_COUNT; i++) {
        if (writers[i]->format.subject == subject && strcmp(writers[i]->format.name, name) == 0) {
            return writers[i];
        }
    }
    return NULL;
}

enum plm_status plm_report_open(struct plm_report **out, enum plm_report_subject subject, const char *format,
                                const struct plm_report_options *options, const struct plm_sink *sink,
                                const struct plm_diag_sink *diag)
{
    *out = NULL;
    const struct plmi_writer *writer = writer_find(subject, format);
    if (writer == NULL) {
        return plmi_writer_fail(diag, PLM_STATUS_ARGUMENT, "no report of this name is known");
    }
    struct plm_report *report = calloc(1, sizeof *report);
    if (report == NULL) {
        return plmi_writer_fail(diag, PLM_STATUS_MEMORY, "no memory for the report");
    }
    report->writer = writer;
    report->options = *options;
    report->sink = sink;
    report->diag = diag;
    plmi_whole_init(&report->out, format);
    plmi_text_init(&report->index);
    if (writer->begin != NULL) {
        writer->begin(report);
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
    if (report->writer->add_trace != NULL) {
        report->dives++;
        return report->writer->add_trace(report, debriefed);
    }
    struct plmi_view *view = NULL;
    if (plmi_view_new(&view, debriefed, report->options.rules) != PLM_STATUS_OK) {
        return plmi_writer_fail(report->diag, PLM_STATUS_MEMORY, "no memory for the report");
    }
    report->writer->add_view(report, view);
    report->dives++;
    plmi_view_free(view);
    return plmi_writer_flush(report);
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
