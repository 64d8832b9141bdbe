/*
 * Recorded events as the text of one cell: alarm 2 - "ascent"; tank-pressure 181.5. Must not quote for CSV.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "base/number.h"
#include "export/csv.h"

static void value_add(struct plmi_text *out, double value)
{
    plmi_text_puts(out, " ");
    if (isfinite(value)) {
        plmi_number_short(out, value);
    } else {
        plmi_text_puts(out, "-");
    }
}

/* In quotes; quotes and back slashes inside have a back slash before them. */
static void text_add(struct plmi_text *out, const char *text)
{
    plmi_text_puts(out, " \"");
    for (; *text != '\0'; text++) {
        if (*text == '"' || *text == '\\') {
            plmi_text_puts(out, "\\");
        }
        plmi_text_add(out, text, 1);
    }
    plmi_text_puts(out, "\"");
}

static void event_add(struct plmi_text *out, const struct plm_event *event)
{
    bool text = event->text[0] != '\0';
    bool second = isfinite(event->value2) || text;
    plmi_text_puts(out, plm_event_kind_text(event->kind));
    if (isfinite(event->value) || second) {
        value_add(out, event->value);
    }
    if (second) {
        value_add(out, event->value2);
    }
    if (text) {
        text_add(out, event->text);
    }
}

void plmi_export_csv_events(struct plmi_text *out, const struct plm_event *events, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        plmi_text_puts(out, i > 0 ? "; " : "");
        event_add(out, &events[i]);
    }
}
