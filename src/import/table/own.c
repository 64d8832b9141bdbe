/*
 * What our own exports write into a table beyond what tables have: one dive, mixes carried, gradient factors, events.
 * Must not guess; other tables never hold these words. SPDX-License-Identifier: MIT
 */
#include "import/table/own.h"

#include <math.h>
#include <string.h>

#include "base/number.h"
#include "base/text.h"
#include "import/format/breathing.h"
#include "import/format/factors.h"

/* No limit of a mix [bar] is above it. */
#define PO2_MOST_BAR 10

/* Cuts the next word off a text; false at its end. */
static bool word_next(const char **at, char *word, size_t size)
{
    *at += strspn(*at, " ");
    size_t n = strcspn(*at, " ");
    if (n == 0 || n >= size) {
        return false;
    }
    memcpy(word, *at, n);
    word[n] = '\0';
    *at += n;
    return true;
}

static bool number_of(const char *word, double *value)
{
    return plmi_number_parse(word, strlen(word), '.', value);
}

/* "0.5 O2 0.2 He deco 1.6 bar": parts first, a use and a limit where they are stated. */
static bool carried_read(struct plmi_table_carried *carried, const char *value)
{
    char word[40];
    *carried = (struct plmi_table_carried){.po2_max_bar = (double)NAN, .use = PLM_MIX_USE_ANY};
    bool fits = word_next(&value, word, sizeof word) && number_of(word, &carried->o2_frac) &&
                word_next(&value, word, sizeof word) && strcmp(word, "O2") == 0 &&
                word_next(&value, word, sizeof word) && number_of(word, &carried->he_frac) &&
                word_next(&value, word, sizeof word) && strcmp(word, "He") == 0;
    while (fits && word_next(&value, word, sizeof word)) {
        plmi_mix_use_parse(word, &carried->use);
        double limit_bar;
        bool limit = number_of(word, &limit_bar) && limit_bar > 0 && limit_bar <= PO2_MOST_BAR;
        carried->po2_max_bar = limit ? limit_bar : carried->po2_max_bar;
    }
    return fits;
}

bool plmi_plan_own_line(struct plmi_table_plan *plan, const char *key, const char *value)
{
    struct plmi_preamble *preamble = &plan->preamble;
    if (strcmp(key, "one dive") == 0) {
        preamble->one_dive = true;
        return true;
    }
    if (plmi_text_same(key, "gradient factors")) {
        return plmi_factors_parse(value, &preamble->gf_low_pct, &preamble->gf_high_pct);
    }
    bool carried = strcmp(key, "carried mix") == 0 && preamble->carried_count < PLMI_TABLE_CARRIED &&
                   carried_read(&preamble->carried[preamble->carried_count], value);
    preamble->carried_count += carried ? 1 : 0;
    return carried;
}

/* A text in quotes into room for it; moves *at behind it. */
static void text_read(const char **at, char *text, size_t size)
{
    size_t n = 0;
    for ((*at)++; **at != '\0' && **at != '"'; (*at)++) {
        *at += **at == '\\' && (*at)[1] != '\0';
        if (n + 1 < size) {
            text[n++] = **at;
        }
    }
    text[n] = '\0';
    *at += **at == '"';
}

/* One event: kind, value, second value, text; moves *at behind it. */
static bool event_read(const char **at, struct plm_event *event, char *text, size_t size)
{
    double *const values[] = {&event->value, &event->value2};
    char word[48];
    size_t n = strcspn(*at, " ;");
    event->value = event->value2 = (double)NAN;
    event->text = "";
    if (n == 0 || n >= sizeof word) {
        return false;
    }
    memcpy(word, *at, n);
    word[n] = '\0';
    *at += n;
    bool fits = plm_event_kind_find(word, &event->kind);
    for (size_t i = 0; i < 2 && fits && **at == ' ' && (*at)[1] != '"'; i++) {
        n = strcspn(++*at, " ;");
        fits = (n == 1 && **at == '-') || plmi_number_parse(*at, n, '.', values[i]);
        *at += n;
    }
    if (fits && **at == ' ' && (*at)[1] == '"') {
        ++*at;
        text_read(at, text, size);
        event->text = text;
    }
    return fits && (**at == '\0' || **at == ';');
}

enum plm_status plmi_own_events(struct plm_dive_builder *builder, const char *text, int64_t time_ms, uint32_t line,
                                struct plmi_diags *diags)
{
    char words[4096];
    const char *at = text + strspn(text, " ");
    while (*at != '\0') {
        struct plm_event event = {.time_ms = time_ms, .line = line};
        if (!event_read(&at, &event, words, sizeof words)) {
            plmi_diags_add(diags, PLM_LEVEL_WARNING, PLM_DIAG_UNUSED, (long)line, 0,
                           "events that cannot be read: '%.60s'; dropped", text);
            return PLM_STATUS_OK;
        }
        if (plm_dive_builder_event(builder, &event) != PLM_STATUS_OK) {
            return PLM_STATUS_MEMORY;
        }
        at += strspn(at, "; ");
    }
    return PLM_STATUS_OK;
}
