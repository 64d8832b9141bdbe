/*
 * Writes a card from what is known of a dive as a whole, and the rules of another card. Must not write mixes and
 * changes: the log has them. SPDX-License-Identifier: MIT
 */
#include "import/card/card.h"

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

/* A pair that a card may say. */
static void factors_line(struct plmi_text *out, double low_pct, double high_pct)
{
    if (!(low_pct >= 1 && low_pct <= high_pct && high_pct <= 100)) {
        return;
    }
    plmi_text_puts(out, "gf = ");
    plmi_number_short(out, low_pct);
    plmi_text_puts(out, "/");
    plmi_number_short(out, high_pct);
    plmi_text_puts(out, "\n");
}

/* Gradient factors are not among them: they stand in [dive]. */
static void rules_write(struct plmi_text *out, const struct plm_card *card)
{
    struct plm_rules_stated stated = card->stated;
    size_t count;
    const struct plm_rule_info *table = plm_rules_table(&count);
    const char *head = "\n[rules]\n";
    stated.gf_low_pct = stated.gf_high_pct = false;
    for (size_t i = 0; i < count; i++) {
        char value[48];
        if (plm_rules_stated_has(&stated, table[i].key)) {
            plmi_text_printf(out, "%s%s = %s\n", head, table[i].key,
                             plm_rules_get(&card->rules, table[i].key, value, sizeof value));
            head = "";
        }
    }
}

enum plm_status plm_card_write(const struct plm_dive_info *info, const struct plm_card *rules_of,
                               const struct plm_sink *sink)
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
    factors_line(&out, info->gf_low_pct, info->gf_high_pct);
    if (rules_of != NULL) {
        rules_write(&out, rules_of);
    }
    enum plm_status status =
        out.failed || start.failed ? PLM_STATUS_MEMORY : sink->write(sink->context, out.bytes, out.count);
    plmi_text_free(&start);
    plmi_text_free(&out);
    return status;
}
