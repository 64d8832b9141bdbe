/*
 * A glance at text for the look of a table: no allocation, no report.
 * SPDX-License-Identifier: MIT
 */
#include "import/table/probe.h"

#include <string.h>

#include "import/format/head.h"
#include "import/table/header.h"

#define LINES_SEEN 200
#define BITS_WORDS 24
#define BITS_EVEN  6

/* A line's cells between separators; a copy of one is enough at a time. */
static const char *cell_at(const char *line, const char *end, char separator, char cell[80])
{
    size_t n = 0;
    const char *at = line;
    for (; at < end && *at != separator; at++) {
        if (n < 79 && *at != '"') {
            cell[n++] = *at;
        }
    }
    cell[n] = '\0';
    return at < end ? at + 1 : end;
}

/* Whether a line has a cell that means depth or pressure or time, wholly understood. */
static bool has_word(const char *line, const char *end, char separator)
{
    char cell[80];
    for (const char *at = line; at < end;) {
        at = cell_at(at, end, separator, cell);
        if (cell[0] == '\0' || strchr("0123456789.-+", cell[0]) != NULL) {
            continue; /* a value, no name */
        }
        struct plmi_header_cell read = plmi_header_read(cell);
        bool core = read.meaning == PLMI_MEANING_DEPTH || read.meaning == PLMI_MEANING_PRESSURE ||
                    read.meaning == PLMI_MEANING_TIME;
        if (core && read.unknown_words == 0 && strchr(cell, ':') == NULL) {
            return true;
        }
        if (core && read.unknown_words == 0 && read.form != PLMI_TIME_FORM_UNKNOWN) {
            return true;
        }
    }
    return false;
}

static size_t count_of(const char *line, const char *end, char c)
{
    size_t count = 0;
    for (; line < end; line++) {
        count += *line == c;
    }
    return count;
}

/* Evidence for one separator. */
static int evidence(const struct plmi_head *head, char separator)
{
    size_t last = 0;
    int even = 0;
    int lines = 0;
    const char *stop = head->text + head->count;
    for (const char *line = head->text; line < stop && lines < LINES_SEEN; lines++) {
        const char *end = line + strcspn(line, "\r\n");
        size_t count = count_of(line, end, separator);
        if (has_word(line, end, separator)) {
            return BITS_WORDS;
        }
        even += count > 0 && count == last;
        last = end > line ? count : last;
        line = end + (*end != '\0');
    }
    return even > 0 && even * 2 >= lines - 2 ? BITS_EVEN : 0;
}

int plmi_table_probe(const unsigned char *bytes, size_t n)
{
    static const char SEPARATORS[] = {',', ';', '\t', '|'};
    struct plmi_head head;
    plmi_head_read(&head, bytes, n);
    const char *text = head.text + strspn(head.text, " \t\r\n");
    if (head.binary || *text == '<' || *text == '{' || *text == '[') {
        return 0;
    }
    int most = 0;
    for (size_t i = 0; i < sizeof SEPARATORS && most < BITS_WORDS; i++) {
        int bits = evidence(&head, SEPARATORS[i]);
        most = bits > most ? bits : most;
    }
    return most;
}
