/*
 * Diagnostics on their way to the caller's sink: formatted, made safe to show,
 * counted, folded. Must not print.
 * SPDX-License-Identifier: MIT
 */
#include "base/diags.h"

#include <plimsoll/text.h>

#include <stdio.h>
#include <string.h>

enum { FOLD_AFTER = 20, TEXT_BYTES = 1024 };

void plmi_diags_init(struct plmi_diags *diags, const struct plm_diag_sink *sink, const char *file)
{
    *diags = (struct plmi_diags){.sink = sink, .file = file};
}

static void send(const struct plmi_diags *diags, const struct plm_diag *diag)
{
    if (diags->sink != NULL && diags->sink->report != NULL) {
        diags->sink->report(diags->sink->context, diag);
    }
}

void plmi_diags_add(struct plmi_diags *diags, enum plm_level level, enum plm_diag_id id, long line, long column,
                    const char *format, ...)
{
    diags->warnings += level == PLM_LEVEL_WARNING ? 1 : 0;
    diags->errors += level == PLM_LEVEL_ERROR ? 1 : 0;
    diags->seen[id]++;
    if (diags->seen[id] > FOLD_AFTER) {
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
    struct plm_diag diag = {level, id, {diags->file, line, column}, text};
    send(diags, &diag);
}

void plmi_diags_finish(struct plmi_diags *diags)
{
    for (int id = 0; id < PLM_DIAG_COUNT; id++) {
        long more = diags->seen[id] - FOLD_AFTER;
        if (more <= 0) {
            continue;
        }
        char text[128];
        (void)snprintf(text, sizeof text, "%ld more of [%s] not shown", more, plm_diag_id_text((enum plm_diag_id)id));
        struct plm_diag diag = {PLM_LEVEL_NOTE, PLM_DIAG_FOLDED, {diags->file, 0, 0}, text};
        send(diags, &diag);
        diags->seen[id] = FOLD_AFTER;
    }
}
