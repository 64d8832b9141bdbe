/*
 * Diagnostics on standard error, as the library formats them. Must not decide what they mean.
 * SPDX-License-Identifier: MIT
 */
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>

#include "cli/print.h"
#include "cli/talk.h"

/* Longer lines get memory of their own. */
#define LINE_BYTES 512

static void talk_print(const struct plm_diag *diag)
{
    char line[LINE_BYTES];
    size_t length = plm_diag_format(diag, line, LINE_BYTES);
    if (length < LINE_BYTES) {
        plmi_cli_print(stderr, "%s\n", line);
        return;
    }
    char *longer = malloc(length + 1);
    if (longer != NULL) {
        plm_diag_format(diag, longer, length + 1);
    }
    plmi_cli_print(stderr, "%s\n", longer != NULL ? longer : line);
    free(longer);
}

static void talk_report(void *context, const struct plm_diag *diag)
{
    struct plmi_cli_talk *talk = context;
    if (diag->level == PLM_LEVEL_WARNING) {
        talk->warnings++;
    }
    if (diag->level == PLM_LEVEL_ERROR) {
        talk->errors++;
    }
    plmi_cli_progress_hide(&talk->progress);
    talk_print(diag);
}

void plmi_cli_talk_init(struct plmi_cli_talk *talk)
{
    *talk = (struct plmi_cli_talk){.sink = {.report = talk_report, .context = talk}};
    plmi_cli_progress_init(&talk->progress);
}

void plmi_cli_talk_usage(struct plmi_cli_talk *talk, enum plm_level level, const char *format, ...)
{
    char text[LINE_BYTES];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);
    struct plm_diag diag = {.level = level, .id = PLM_DIAG_USAGE, .place = {.file = "plimsoll"}, .text = text};
    talk_report(talk, &diag);
}
