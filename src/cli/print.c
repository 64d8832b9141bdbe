/*
 * Prints words. Must not decide which.
 * SPDX-License-Identifier: MIT
 */
#include "cli/print.h"

#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

#include <plimsoll/text.h>

/* Longer words get memory of their own. */
enum { WORDS_BYTES = 512 };

/* Words made plain and written. Returns: bytes written. */
static int plain_write(FILE *out, const char *words)
{
    char few[WORDS_BYTES];
    size_t length = plm_text_plain(words, few, WORDS_BYTES);
    char *more = length < WORDS_BYTES ? NULL : malloc(length + 1);
    if (more != NULL) {
        (void)plm_text_plain(words, more, length + 1);
    }
    (void)fputs(more != NULL ? more : few, out);
    free(more);
    return (int)length;
}

/* words without the line feeds of the format at both ends, which are written as they are. */
static int lines_write(FILE *out, const char *format, char *words)
{
    size_t before = strspn(format, "\n"), end = strlen(words), behind = 0;
    size_t format_end = strlen(format);
    while (format_end - behind > before && format[format_end - 1 - behind] == '\n') {
        behind++;
    }
    words[end - behind] = '\0';
    for (size_t i = 0; i < before; i++) {
        (void)fputc('\n', out);
    }
    int length = plain_write(out, words + before);
    for (size_t i = 0; i < behind; i++) {
        (void)fputc('\n', out);
    }
    return length;
}

int plmi_cli_print(FILE *out, const char *format, ...)
{
    char few[WORDS_BYTES];
    va_list arguments, again;
    va_start(arguments, format);
    va_copy(again, arguments);
    int length = vsnprintf(few, sizeof few, format, arguments);
    va_end(arguments);
    char *more = length < WORDS_BYTES ? NULL : malloc((size_t)length + 1);
    if (more != NULL) {
        (void)vsnprintf(more, (size_t)length + 1, format, again);
    }
    va_end(again);
    int shown = 0;
    if (length >= WORDS_BYTES && more == NULL) {
        (void)fputs("no memory for words\n", out);
    } else if (length >= 0) {
        shown = lines_write(out, format, more != NULL ? more : few);
    }
    free(more);
    return shown;
}
