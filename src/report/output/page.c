/*
 * Lays plain text out within 80 columns. Must not know what it says.
 * SPDX-License-Identifier: MIT
 */
#include <stdlib.h>
#include <string.h>

#include "base/plain.h"
#include "report/output/page.h"

#define LABEL_INDENT  2
#define LABEL_COLUMNS 20

/* Columns of text[n]. */
static int columns_of(const char *text, size_t n)
{
    int width = 0;
    for (size_t i = 0; i < n; i++) {
        width += ((unsigned char)text[i] & 0xC0) != 0x80;
    }
    return width;
}

int plmi_page_width(const char *text)
{
    int width = 0;
    size_t left = strlen(text);
    while (left > 0) {
        char shown[PLMI_SHOWN_BYTES];
        size_t plain = plmi_plain_length(text, left);
        width += columns_of(text, plain);
        text += plain;
        left -= plain;
        if (left > 0) {
            size_t taken = plmi_plain_shown(text, left, shown);
            width += columns_of(shown, strlen(shown));
            text += taken;
            left -= taken;
        }
    }
    return width;
}

/* Okabe-Ito on a terminal of 256 colours: vermillion, orange, sky blue; bold for lines, bluish green for rooms. */
void plmi_page_tone(struct plmi_page *page, enum plmi_page_tone tone)
{
    static const char *const codes[] = {"\033[0m",       "\033[1m",   "\033[1;38;5;166m", "\033[38;5;214m",
                                        "\033[38;5;74m", "\033[0;1m", "\033[0;38;5;36m"};
    if (page->colour) {
        plmi_text_add_raw(page->out, codes[tone], strlen(codes[tone]));
    }
}

void plmi_page_heading(struct plmi_page *page, const char *text)
{
    plmi_text_puts(page->out, "\n");
    plmi_page_tone(page, PLMI_PAGE_HEADING);
    plmi_text_add_plain(page->out, text, strlen(text));
    plmi_page_tone(page, PLMI_PAGE_PLAIN);
    plmi_text_puts(page->out, "\n");
}

static void blanks(struct plmi_text *out, int count)
{
    for (int i = 0; i < count; i++) {
        plmi_text_add(out, " ", 1);
    }
}

static void wrap(struct plmi_page *page, int at, int indent, const char *text)
{
    bool first = true;
    int column = at;
    text += strspn(text, " ");
    while (*text != '\0') {
        size_t length = strcspn(text, " ");
        int width = columns_of(text, length);
        if (!first && column + 1 + width > PLMI_PAGE_COLUMNS) {
            plmi_text_puts(page->out, "\n");
            blanks(page->out, indent);
            column = indent;
        } else if (!first) {
            blanks(page->out, 1);
            column++;
        }
        plmi_text_add_plain(page->out, text, length);
        column += width;
        first = false;
        text += length;
        text += strspn(text, " ");
    }
    plmi_text_puts(page->out, "\n");
}

void plmi_page_wrap(struct plmi_page *page, int at, int indent, const char *text)
{
    size_t length = strlen(text);
    if (plmi_plain_length(text, length) == length) {
        wrap(page, at, indent, text);
        return;
    }
    /* Lines are broken by what is shown. */
    struct plmi_text shown;
    plmi_text_init(&shown);
    plmi_text_add_plain(&shown, text, length);
    wrap(page, at, indent, shown.bytes != NULL ? shown.bytes : "");
    page->out->failed = page->out->failed || shown.failed;
    plmi_text_free(&shown);
}

/* Whether one word alone is wider than the place behind the labels. */
static bool word_too_wide(const char *text)
{
    for (; *text != '\0'; text += strspn(text, " ")) {
        size_t length = strcspn(text, " ");
        if (columns_of(text, length) > PLMI_PAGE_COLUMNS - LABEL_INDENT - LABEL_COLUMNS) {
            return true;
        }
        text += length;
    }
    return false;
}

void plmi_page_row(struct plmi_page *page, const char *label, const char *text)
{
    int width = plmi_page_width(label);
    int gap = width < LABEL_COLUMNS && !word_too_wide(text) ? LABEL_COLUMNS - width : 1;
    blanks(page->out, LABEL_INDENT);
    plmi_text_add_plain(page->out, label, strlen(label));
    blanks(page->out, gap);
    plmi_page_wrap(page, LABEL_INDENT + width + gap, LABEL_INDENT + LABEL_COLUMNS, text);
}

void plmi_page_cell(struct plmi_page *page, int width, const char *text)
{
    int fill = abs(width) - plmi_page_width(text);
    if (width < 0) {
        blanks(page->out, fill);
    }
    plmi_text_add_plain(page->out, text, strlen(text));
    if (width > 0) {
        blanks(page->out, fill);
    }
}

void plmi_page_line_end(struct plmi_page *page)
{
    struct plmi_text *out = page->out;
    while (!out->failed && out->count > 0 && out->bytes[out->count - 1] == ' ') {
        out->bytes[--out->count] = '\0';
    }
    plmi_text_puts(out, "\n");
}

static const char *made(struct plmi_page *page, const struct plmi_text *text)
{
    page->out->failed = page->out->failed || text->failed;
    return text->bytes != NULL ? text->bytes : "";
}

void plmi_page_made_wrap(struct plmi_page *page, int at, int indent, struct plmi_text *text)
{
    plmi_page_wrap(page, at, indent, made(page, text));
    plmi_text_free(text);
}

void plmi_page_made_row(struct plmi_page *page, const char *label, struct plmi_text *text)
{
    plmi_page_row(page, label, made(page, text));
    plmi_text_free(text);
}

void plmi_page_made_cell(struct plmi_page *page, int width, struct plmi_text *text)
{
    plmi_page_cell(page, width, made(page, text));
    plmi_text_free(text);
}
