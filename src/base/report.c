/*
 * Diagnostics on their way to the caller's sink: formatted, made safe to show,
 * counted, folded. Must not print.
 * SPDX-License-Identifier: MIT
 */
#include "base/report.h"

#include <plimsoll/text.h>

#include <stdio.h>
#include <string.h>

enum { FOLD_AFTER = 20, TEXT_BYTES = 1024 };

void plmi_report_init(struct plmi_report *report, const struct plm_diag_sink *sink, const char *file)
{
    *report = (struct plmi_report){.sink = sink, .file = file};
}

static void send(const struct plmi_report *report, const struct plm_diag *diag)
{
    if (report->sink != NULL && report->sink->report != NULL) {
        report->sink->report(report->sink->context, diag);
    }
}

void plmi_report_add(struct plmi_report *report, enum plm_level level, enum plm_diag_id id, long line, long column,
                     const char *format, ...)
{
    report->warnings += level == PLM_LEVEL_WARNING ? 1 : 0;
    report->errors += level == PLM_LEVEL_ERROR ? 1 : 0;
    report->seen[id]++;
    if (report->seen[id] > FOLD_AFTER) {
        return;
    }
    char said[TEXT_BYTES], text[TEXT_BYTES];
    va_list arguments;
    va_start(arguments, format);
    int length = vsnprintf(said, sizeof said, format, arguments);
    va_end(arguments);
    if (length < 0) {
        said[0] = '\0';
    }
    /* A caller may print the text by itself. */
    if (plm_text_plain(said, text, TEXT_BYTES) >= TEXT_BYTES || length >= TEXT_BYTES) {
        (void)plm_text_plain(said, text, TEXT_BYTES - 3);
        memcpy(text + strlen(text), "...", 4);
    }
    struct plm_diag diag = {level, id, {report->file, line, column}, text};
    send(report, &diag);
}

void plmi_report_finish(struct plmi_report *report)
{
    for (int id = 0; id < PLM_DIAG_COUNT; id++) {
        long more = report->seen[id] - FOLD_AFTER;
        if (more <= 0) {
            continue;
        }
        char text[128];
        (void)snprintf(text, sizeof text, "%ld more of [%s] not shown", more, plm_diag_id_text((enum plm_diag_id)id));
        struct plm_diag diag = {PLM_LEVEL_NOTE, PLM_DIAG_FOLDED, {report->file, 0, 0}, text};
        send(report, &diag);
        report->seen[id] = FOLD_AFTER;
    }
}
