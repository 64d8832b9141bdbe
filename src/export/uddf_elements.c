/*
 * Elements and attributes of UDDF, each with a text or a number. Must not know what they say.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <string.h>

#include "base/number.h"
#include "export/uddf.h"
#include "syntax/markup.h"

static bool is_blank(char c)
{
    return c == ' ' || c == '\t' || c == '\n' || c == '\r';
}

/* text without blanks at its ends, line ends as one kind, or all blanks plain where it must stay on one line. */
static void clean_add(struct plmi_text *out, const char *text, bool one_line)
{
    struct plmi_text clean;
    size_t n = strlen(text);
    plmi_text_init(&clean);
    while (n > 0 && is_blank(text[n - 1])) {
        n--;
    }
    while (n > 0 && is_blank(text[0])) {
        text++;
        n--;
    }
    for (size_t i = 0; i < n; i++) {
        bool double_end = text[i] == '\r' && i + 1 < n && text[i + 1] == '\n';
        const char *shown = is_blank(text[i]) && one_line ? " " : text[i] == '\r' ? "\n" : &text[i];
        if (!double_end) {
            plmi_text_add(&clean, shown, 1);
        }
    }
    if (clean.bytes != NULL) {
        plmi_xml_text(out, clean.bytes);
    }
    out->failed = out->failed || clean.failed;
    plmi_text_free(&clean);
}

void plmi_export_uddf_text(struct plmi_text *out, const char *tag, const char *text)
{
    if (text == NULL || text[strspn(text, " \t\r\n")] == '\0') {
        return;
    }
    plmi_text_printf(out, "<%s>", tag);
    clean_add(out, text, false);
    plmi_text_printf(out, "</%s>", tag);
}

void plmi_export_uddf_attribute(struct plmi_text *out, const char *name, const char *text)
{
    plmi_text_printf(out, " %s=\"", name);
    clean_add(out, text, true);
    plmi_text_puts(out, "\"");
}

void plmi_export_uddf_number(struct plmi_text *out, const char *tag, double value, int tens)
{
    if (isnan(value)) {
        return;
    }
    plmi_text_printf(out, "<%s>", tag);
    plmi_number_short_scaled(out, value, tens);
    plmi_text_printf(out, "</%s>", tag);
}

void plmi_export_uddf_number_attribute(struct plmi_text *out, const char *name, double value)
{
    if (!isfinite(value)) {
        return;
    }
    plmi_text_printf(out, " %s=\"", name);
    plmi_number_short(out, value);
    plmi_text_puts(out, "\"");
}
