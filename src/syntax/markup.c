/*
 * Escaping for HTML, SVG, XML and CSV. Must not let a byte of the input steer the page.
 * SPDX-License-Identifier: MIT
 */
#include "syntax/markup.h"

#include <string.h>

/* What stands for a character in markup, NULL where it stands for itself. */
static const char *entity_of(char c)
{
    static const struct { char c; const char *text; } rows[] = {
        { '&', "&amp;" }, { '<', "&lt;" }, { '>', "&gt;" }, { '"', "&quot;" }, { '\'', "&#39;" },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        if (rows[i].c == c) {
            return rows[i].text;
        }
    }
    return NULL;
}

static bool is_control(unsigned char c)
{
    return (c < 0x20 && c != '\t' && c != '\n' && c != '\r') || c == 0x7f;
}

/* U+0080..U+009F, and U+FFFE and U+FFFF, which are no characters of XML. */
static bool is_dropped(const char *s, size_t length)
{
    return (length == 2 && (unsigned char)s[0] == 0xc2 && (unsigned char)s[1] < 0xa0) ||
           (length == 3 && memcmp(s, "\xef\xbf", 2) == 0 && (unsigned char)s[2] >= 0xbe);
}

void plmi_markup_text(struct plmi_text *out, const char *text)
{
    size_t left = strlen(text);
    while (left > 0) {
        size_t length = plmi_utf8_length(text, left);
        const char *entity = entity_of(*text);
        if (length == 0) {
            plmi_text_puts(out, "\xef\xbf\xbd");
            length = 1;
        } else if (entity != NULL) {
            plmi_text_puts(out, entity);
        } else if (!is_control((unsigned char)*text) && !is_dropped(text, length)) {
            plmi_text_add(out, text, length);
        }
        text += length;
        left -= length;
    }
}

void plmi_markup_attribute(struct plmi_text *out, const char *name, const char *value)
{
    plmi_text_add(out, " ", 1);
    plmi_text_puts(out, name);
    plmi_text_add(out, "=\"", 2);
    plmi_markup_text(out, value);
    plmi_text_add(out, "\"", 1);
}

void plmi_csv_cell(struct plmi_text *out, const char *text)
{
    size_t length = strlen(text);
    bool edge_blank = length > 0 && (text[0] == ' ' || text[length - 1] == ' ');
    if (!edge_blank && strpbrk(text, ",;\t\"\r\n") == NULL) {
        plmi_text_add(out, text, length);
        return;
    }
    plmi_text_add(out, "\"", 1);
    for (const char *quote; (quote = strchr(text, '"')) != NULL; text = quote + 1) {
        plmi_text_add(out, text, (size_t)(quote - text) + 1);
        plmi_text_add(out, "\"", 1);
    }
    plmi_text_puts(out, text);
    plmi_text_add(out, "\"", 1);
}
