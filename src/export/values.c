/*
 * Names, numbers and texts of logs as their reader takes them back. Must not round what was recorded.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <string.h>

#include "base/number.h"
#include "base/utf8.h"
#include "export/exporter.h"

/* Digits of a temperature that our readers keep. */
#define TEMP_DIGITS 6

const char *plmi_export_keep(struct plm_export *export, const char *text)
{
    const char *kept = plmi_arena_text(&export->arena, text, strlen(text));
    export->failed = export->failed || kept == NULL;
    return kept != NULL ? kept : "";
}

size_t plmi_export_name(struct plm_export *export, struct plmi_export_names *names, const char *name)
{
    if (name == NULL || name[strspn(name, " \t\r\n")] == '\0') {
        return 0;
    }
    for (size_t i = 0; i < names->count; i++) {
        if (strcmp(names->name[i], name) == 0) {
            return i + 1;
        }
    }
    if (!plmi_array_grow((void **)&names->name, &names->capacity, names->count, sizeof *names->name)) {
        export->failed = true;
        return 0;
    }
    names->name[names->count++] = plmi_export_keep(export, name);
    return names->count;
}

void plmi_export_seconds(struct plmi_text *out, int64_t time_ms)
{
    plmi_number_short(out, (double)time_ms / 1e3);
}

void plmi_export_rounded(struct plmi_text *out, double value, int most)
{
    struct plmi_text digits;
    plmi_text_init(&digits);
    plmi_number_fixed(&digits, value, most);
    while (digits.count > 0 && digits.bytes[digits.count - 1] == '0') {
        digits.count--;
    }
    if (digits.count > 0 && digits.bytes[digits.count - 1] == '.') {
        digits.count--;
    }
    plmi_text_add(out, digits.bytes != NULL ? digits.bytes : "", digits.count);
    out->failed = out->failed || digits.failed;
    plmi_text_free(&digits);
}

void plmi_export_temp(struct plmi_text *out, double temp_c, double zero_c)
{
    plmi_export_rounded(out, temp_c - zero_c, TEMP_DIGITS);
}

static bool is_blank(char c)
{
    return c == ' ' || c == '\t' || c == '\n' || c == '\r';
}

bool plmi_export_exact(const char *text)
{
    size_t n = strlen(text);
    if (n > 0 && (is_blank(text[0]) || is_blank(text[n - 1]))) {
        return false;
    }
    for (size_t i = 0; i < n;) {
        const unsigned char *at = (const unsigned char *)text + i;
        size_t length = plmi_utf8_length(text + i, n - i);
        bool control = at[0] < 0x20 || at[0] == 0x7f || (length == 2 && at[0] == 0xc2 && at[1] < 0xa0);
        bool no_letter = length == 3 && at[0] == 0xef && at[1] == 0xbf && at[2] >= 0xbe;
        if (length == 0 || control || no_letter) {
            return false;
        }
        i += length;
    }
    return true;
}

uint32_t plmi_export_assumed_mix(const struct plm_dive *dive)
{
    size_t count;
    if (plm_dive_info_get(dive)->gas_known) {
        return UINT32_MAX;
    }
    const struct plm_setting *settings = plm_dive_settings(dive, &count);
    return settings[plm_dive_samples(dive, &count)[0].setting].mix;
}

/* Mixes in an order that is being put together; stated: of each mix, whether it is in it. */
struct order {
    uint32_t *mixes;
    bool *stated;
    size_t count;
};

static void order_add(struct order *order, uint32_t mix)
{
    if (!order->stated[mix]) {
        order->mixes[order->count++] = mix;
    }
    order->stated[mix] = true;
}

const uint32_t *plmi_export_mix_order(struct plm_export *export, const struct plm_dive *dive, size_t *count)
{
    size_t mix_count, setting_count;
    uint32_t assumed = plmi_export_assumed_mix(dive);
    const struct plm_setting *settings = plm_dive_settings(dive, &setting_count);
    (void)plm_dive_mixes(dive, &mix_count);
    struct order order = {plmi_arena_get(&export->arena, mix_count * sizeof *order.mixes),
                          plmi_arena_get(&export->arena, mix_count * sizeof *order.stated), 0};
    *count = 0;
    if (order.mixes == NULL || order.stated == NULL) {
        export->failed = true;
        return NULL;
    }
    bool away = false;
    for (size_t i = 0; i < setting_count; i++) {
        away = away || settings[i].mix != assumed;
        if (away) {
            order_add(&order, settings[i].mix);
        }
    }
    for (uint32_t i = 0; i < mix_count; i++) {
        if (i != assumed) {
            order_add(&order, i);
        }
    }
    *count = order.count;
    return order.mixes;
}

int plmi_export_cells(const struct plm_dive *dive)
{
    size_t count;
    int cells = 0;
    const struct plm_sample *samples = plm_dive_samples(dive, &count);
    for (size_t i = 0; i < count; i++) {
        for (int cell = cells; cell < PLM_CELLS; cell++) {
            if (!isnan(samples[i].cell_bar[cell])) {
                cells = cell + 1;
            }
        }
    }
    return cells;
}

const char *plmi_export_use(enum plm_mix_use use)
{
    static const char *const words[] = {"", "diluent", "bailout", "deco"};
    return words[use];
}
