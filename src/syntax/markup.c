/*
 * Escaping for HTML, SVG and XML. Must not let a byte of the input steer the page.
 * SPDX-License-Identifier: MIT
 */
#include "syntax/markup.h"

#include <string.h>

#include "base/plain.h"
#include "base/utf8.h"

/* What stands for a character in markup, NULL where it stands for itself. */
static const char *entity_of(char c)
{
    static const struct {
        char c;
        const char *text;
    } rows[] = {
        {'&', "&amp;"}, {'<', "&lt;"}, {'>', "&gt;"}, {'"', "&quot;"}, {'\'', "&#39;"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        if (rows[i].c == c) {
            return rows[i].text;
        }
    }
    return NULL;
}

/* Writes a character that steers by other means than its bytes. */
typedef void write_steering(struct plmi_text *out, unsigned long code);

static void markup_write(struct plmi_text *out, const char *text, write_steering *steering)
{
    size_t left = strlen(text);
    while (left > 0) {
        size_t length = plmi_utf8_length(text, left);
        unsigned long code = length > 0 ? plmi_utf8_code(text, length) : 0;
        const char *entity = entity_of(*text);
        if (length == 0) {
            plmi_text_puts(out, "\xef\xbf\xbd");
            length = 1;
        } else if (entity != NULL) {
            plmi_text_puts(out, entity);
        } else if (plmi_steers(code) && code != '\t' && code != '\n') {
            steering(out, code);
        } else if (code != 0xfffe && code != 0xffff) { /* which are no characters of XML */
            plmi_text_add(out, text, length);
        }
        text += length;
        left -= length;
    }
}

static void show(struct plmi_text *out, unsigned long code)
{
    plmi_text_printf(out, "\\u{%lx}", code);
}

static void refer(struct plmi_text *out, unsigned long code)
{
    if (code >= 0x20 || code == '\r') {
        plmi_text_printf(out, "&#x%lx;", code);
    }
}

void plmi_markup_text(struct plmi_text *out, const char *text)
{
    markup_write(out, text, show);
}

void plmi_xml_text(struct plmi_text *out, const char *text)
{
    markup_write(out, text, refer);
}

void plmi_markup_attribute(struct plmi_text *out, const char *name, const char *value)
{
    plmi_text_add(out, " ", 1);
    plmi_text_puts(out, name);
    plmi_text_add(out, "=\"", 2);
    plmi_markup_text(out, value);
    plmi_text_add(out, "\"", 1);
}
