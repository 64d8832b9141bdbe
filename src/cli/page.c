/*
 * Writes short pages of words.
 * SPDX-License-Identifier: MIT
 */
#include <stdlib.h>
#include <string.h>

#include <plimsoll/text.h>

#include "cli/page.h"

#define COLUMNS 80

static const char *set_output(struct plmi_cli_settings *settings, const char *value)
{
    settings->output = value;
    return NULL;
}

static const struct plmi_cli_option rows[] = {
    {"output", 'o', "FILE", "write to FILE, which appears when it is whole; compressed where it ends in .gz",
     set_output},
};

const struct plmi_cli_options plmi_cli_options_page = {"The answer", rows, sizeof rows / sizeof rows[0]};

bool plmi_cli_page_open(struct plmi_cli_page *page, struct plmi_cli_call *call)
{
    page->failed = false;
    return plmi_cli_file_open(&page->file, call);
}

static void put(struct plmi_cli_page *page, const char *bytes, size_t count)
{
    if (!page->failed && count > 0) {
        page->failed = page->file.sink.write(page->file.sink.context, bytes, count) != PLM_STATUS_OK;
    }
}

/* text[n] made plain. */
static void plain_put(struct plmi_cli_page *page, const char *text, size_t n)
{
    char *words = malloc(n + 1);
    char *shown = NULL;
    if (words != NULL) {
        memcpy(words, text, n);
        words[n] = '\0';
        size_t room = plm_text_plain(words, (char[1]){0}, 1) + 1;
        shown = malloc(room);
        if (shown != NULL) {
            put(page, shown, plm_text_plain(words, shown, room));
        }
    }
    page->failed = page->failed || shown == NULL;
    free(words);
    free(shown);
}

void plmi_cli_page_put(struct plmi_cli_page *page, const char *text)
{
    size_t length = strlen(text), lines = 0;
    while (lines < length && text[length - 1 - lines] == '\n') {
        lines++;
    }
    if (length > lines) {
        plain_put(page, text, length - lines);
    }
    put(page, text + length - lines, lines);
}

void plmi_cli_page_wrap(struct plmi_cli_page *page, const char *indent, const char *text)
{
    size_t column = 0;
    while (*text != '\0') {
        size_t length = strcspn(text, " ");
        if (column > 0 && column + 1 + length > COLUMNS) {
            plmi_cli_page_put(page, "\n");
            column = 0;
        }
        plmi_cli_page_put(page, column == 0 ? indent : " ");
        column += column == 0 ? strlen(indent) : 1;
        plain_put(page, text, length);
        column += length;
        text += length;
        text += strspn(text, " ");
    }
    plmi_cli_page_put(page, "\n");
}

bool plmi_cli_page_finish(struct plmi_cli_page *page)
{
    if (!page->failed) {
        return plmi_cli_file_finish(&page->file);
    }
    plmi_cli_file_free(&page->file);
    return false;
}
