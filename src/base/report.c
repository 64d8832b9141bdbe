/*
 * Diagnostics on their way to the caller's sink: formatted, made safe to show,
 * counted, folded. Must not print.
 * SPDX-License-Identifier: MIT
 */
#include "base/report.h"

#include <stdio.h>
#include <string.h>

enum { FOLD_AFTER = 20, TEXT_BYTES = 1024 };

void plmi_report_init(struct plmi_report *report, const struct plm_diag_sink *sink, const char *file)
{
    *report = (struct plmi_report){ .sink = sink, .file = file };
}

/* Input may stand in a message: bytes that steer a terminal or are not UTF-8 are shown as '?'. */
static void make_safe(char *text)
{
    size_t left = strlen(text);
    for (char *at = text; left > 0;) {
        size_t length = plmi_utf8_length(at, left);
        unsigned char first = (unsigned char)*at;
        bool control = first < 0x20 || first == 0x7f ||
                       (length == 2 && first == 0xc2 && (unsigned char)at[1] < 0xa0);
        if (length == 0 || control) {
            length = length == 0 ? 1 : length;
            memset(at, '?', length);
        }
        at += length;
        left -= length;
    }
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
    char text[TEXT_BYTES];
    va_list arguments;
    va_start(arguments, format);
    int length = vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);
    if (length < 0) {
        text[0] = '\0';
    } else if ((size_t)length >= sizeof text) {
        memcpy(text + sizeof text - 4, "...", 4);
    }
    make_safe(text);
    struct plm_diag diag = { level, id, { report->file, line, column }, text };
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
        struct plm_diag diag = { PLM_LEVEL_NOTE, PLM_DIAG_FOLDED, { report->file, 0, 0 }, text };
        send(report, &diag);
        report->seen[id] = FOLD_AFTER;
    }
}
