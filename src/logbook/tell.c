/*
 * What a logbook has to say, each for itself: nothing is counted and nothing is folded.
 * SPDX-License-Identifier: MIT
 */
#include <stdarg.h>
#include <stdio.h>

#include "logbook/work.h"

#define TEXT_BYTES 1024

void plmi_logbook_tell(const struct plm_logbook *logbook, enum plm_level level, const char *file, const char *format,
                       ...)
{
    char text[TEXT_BYTES];
    va_list arguments;
    if (logbook->sink == NULL || logbook->sink->report == NULL) {
        return;
    }
    va_start(arguments, format);
    (void)vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);
    const struct plm_diag diag = {.level = level, .id = PLM_DIAG_LEDGER, .place = {.file = file}, .text = text};
    logbook->sink->report(logbook->sink->context, &diag);
}
