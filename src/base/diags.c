/*
 * Diagnostics on their way to a sink: formatted and made safe to show. Must not print, count or keep any.
 * SPDX-License-Identifier: MIT
 */
#include "base/diags.h"

#include <plimsoll/text.h>

#include <stdio.h>
#include <string.h>

enum { TEXT_BYTES = 1024 };

void plmi_diags_init(struct plmi_diags *diags, const struct plm_diag_sink *sink, const char *file)
{
    *diags = (struct plmi_diags){.sink = sink, .file = file};
}

void plmi_diag_pass(const struct plm_diag_sink *sink, const struct plm_diag *diag)
{
    if (sink != NULL && sink->report != NULL) {
        sink->report(sink->context, diag);
    }
}

void plmi_diags_add_list(const struct plmi_diags *diags, enum plm_level level, enum plm_diag_id id, long line,
                         long column, const char *format, va_list arguments)
{
    char said[TEXT_BYTES], text[TEXT_BYTES];
    int length = vsnprintf(said, sizeof said, format, arguments);
    if (length < 0) {
        said[0] = '\0';
    }
    /* A caller may print the text by itself. */
    if (plm_text_plain(said, text, TEXT_BYTES) >= TEXT_BYTES || length >= TEXT_BYTES) {
        (void)plm_text_plain(said, text, TEXT_BYTES - 3);
        memcpy(text + strlen(text), "...", 4);
    }
    struct plm_diag diag = {level, id, {diags->file, line, column}, text};
    plmi_diag_pass(diags->sink, &diag);
}

void plmi_diags_add(const struct plmi_diags *diags, enum plm_level level, enum plm_diag_id id, long line, long column,
                    const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    plmi_diags_add_list(diags, level, id, line, column, format, arguments);
    va_end(arguments);
}

enum plm_status plmi_diags_no_memory(const struct plmi_diags *diags, long line, const char *what_for, ...)
{
    char text[TEXT_BYTES];
    va_list arguments;
    va_start(arguments, what_for);
    (void)vsnprintf(text, sizeof text, what_for, arguments);
    va_end(arguments);
    plmi_diags_add(diags, PLM_LEVEL_ERROR, PLM_DIAG_MEMORY, line, 0, "no memory %s", text);
    return PLM_STATUS_MEMORY;
}
