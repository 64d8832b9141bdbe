/*
 * Writes a card from what is known of a dive as a whole. Must not write mixes and changes: the log has them.
 * SPDX-License-Identifier: MIT
 */
#include <plimsoll/card.h>

#include <string.h>

#include "base/clock.h"
#include "base/number.h"
#include "base/text.h"

/* No line of a card is longer than 197 bytes. */
#define VALUE_BYTES 180

/* A value on one line that no reader takes for a comment. What is too long for a card is left to the log. */
static void text_line(struct plmi_text *out, const char *key, const char *value)
{
    struct plmi_text line;
    if (value == NULL || !value[0]) {
        return;
    }
    plmi_text_init(&line);
    plmi_text_add_reversible(&line, value, strlen(value), ";");
    if (!line.failed && line.count <= VALUE_BYTES) {
        plmi_text_printf(out, "%s = %s\n", key, line.bytes);
    }
    out->failed = out->failed || line.failed;
    plmi_text_free(&line);
}

/* What a card may not say is left to the log. */
static void number_line(struct plmi_text *out, const char *key, double value, double least, double most)
{
    if (!(value >= least && value <= most)) {
        return;
    }
    plmi_text_printf(out, "%s = ", key);
    plmi_number_short(out, value);
    plmi_text_puts(out, "\n");
}

enum plm_status plm_card_write(const struct plm_dive_info *info, const struct plm_sink *sink)
{
    struct plmi_text out, start;
    plmi_text_init(&out);
    plmi_text_init(&start);
    plmi_clock_write(&start, &info->start);
    plmi_text_puts(&out, "[dive]\n");
    text_line(&out, "diver", info->diver);
    if (info->start.has_clock) {
        text_line(&out, "start", start.bytes);
    }
    text_line(&out, "recorder", info->recorder);
    text_line(&out, "site", info->site);
    number_line(&out, "surface_bar", info->surface_bar, PLM_SURFACE_LEAST_BAR, PLM_SURFACE_MOST_BAR);
    number_line(&out, "altitude_m", info->altitude_m, PLM_ALTITUDE_LEAST_M, PLM_ALTITUDE_MOST_M);
    number_line(&out, "water", info->water_kg_m3, PLM_WATER_LEAST_KG_M3, PLM_WATER_MOST_KG_M3);
    enum plm_status status =
        out.failed || start.failed ? PLM_STATUS_MEMORY : sink->write(sink->context, out.bytes, out.count);
    plmi_text_free(&start);
    plmi_text_free(&out);
    return status;
}
