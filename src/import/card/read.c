/*
 * Reads a dive card: sections [dive], [mixes], [rules] and [at TIME]. A card with a bad line is not used at all.
 * SPDX-License-Identifier: MIT
 */
#include "import/card/keys.h"

#include <math.h>
#include <stdlib.h>
#include <plimsoll/nearest.h>
#include <string.h>

#include "base/fold.h"
#include "base/number.h"
#include "base/text.h"

static void refuse(struct plmi_card_reading *reading, const struct plmi_ini_entry *entry, const char *why)
{
    plmi_diags_add(reading->diags, PLM_LEVEL_ERROR, PLM_DIAG_CARD, entry->line, 0, "%s = %.60s: %s", entry->key,
                   entry->value, why);
    reading->failed = true;
}

static void refuse_key(struct plmi_card_reading *reading, const struct plmi_card_key *keys,
                       const struct plmi_ini_entry *entry)
{
    struct plm_nearest nearest = plm_nearest_begin(entry->key);
    for (const struct plmi_card_key *key = keys; key->key != NULL; key++) {
        plm_nearest_offer(&nearest, key->key);
    }
    plmi_diags_add(reading->diags, PLM_LEVEL_ERROR, PLM_DIAG_CARD, entry->line, 0,
                   "no key \"%s\" in [%s]; the nearest is %s", entry->key, entry->section, nearest.known);
    reading->failed = true;
}

static void take_key(struct plmi_card_reading *reading, const struct plmi_card_key *keys,
                     const struct plmi_ini_entry *entry)
{
    for (const struct plmi_card_key *key = keys; key->key; key++) {
        if (plmi_text_same(key->key, entry->key)) {
            const char *wrong = key->take(reading, entry->value);
            if (wrong != NULL) {
                refuse(reading, entry, wrong);
            }
            return;
        }
    }
    refuse_key(reading, keys, entry);
}

/* "90", "1:30", "0:01:30" as seconds; false for anything else. */
static bool runtime(const char *text, double *seconds)
{
    double total = 0.0;
    for (int parts = 0; parts < 3; parts++) {
        const char *colon = strchr(text, ':');
        size_t n = colon != NULL ? (size_t)(colon - text) : strlen(text);
        double part;
        if (!plmi_number_parse(text, n, '.', &part) || part < 0 || (parts > 0 && part >= 60)) {
            return false;
        }
        total = total * 60.0 + part;
        if (colon == NULL) {
            *seconds = total;
            return total <= 7 * 86400.0;
        }
        text = colon + 1;
    }
    return false;
}

/* The change that a section "at TIME" is about, made as needed; NULL (reported) where the time cannot be read. */
static struct plmi_card_change *change_at(struct plmi_card_reading *reading, const struct plmi_ini_entry *entry)
{
    struct plm_card *card = reading->card;
    double time_s;
    if (!runtime(entry->section + 3, &time_s)) {
        refuse(reading, entry, "its section needs a runtime as [at 1:30] or [at 0:01:30]");
        return NULL;
    }
    for (int i = 0; i < card->change_count; i++) {
        if (!(fabs(card->changes[i].time_s - time_s) > 0)) {
            return &card->changes[i];
        }
    }
    if (card->change_count == PLMI_CARD_CHANGES) {
        refuse(reading, entry, "more changes than a card may tell");
        return NULL;
    }
    struct plmi_card_change *change = &card->changes[card->change_count++];
    *change = (struct plmi_card_change){.time_s = time_s, .mix = -1, .setpoint_bar = (double)NAN};
    return change;
}

static void take_rule(struct plmi_card_reading *reading, const struct plmi_ini_entry *entry)
{
    const char *wrong = NULL;
    if (strcmp(plm_rules_nearest(entry->key), entry->key) == 0) {
        wrong = plmi_card_rule_take(reading, entry->key, entry->value);
    } else {
        plmi_diags_add(reading->diags, PLM_LEVEL_ERROR, PLM_DIAG_CARD, entry->line, 0,
                       "there is no rule \"%s\"; the nearest is %s", entry->key, plm_rules_nearest(entry->key));
        reading->failed = true;
    }
    if (wrong != NULL) {
        refuse(reading, entry, wrong);
    }
}

/* Gradient factors are a pair: one alone would stand beside another's. */
static void check_factors(struct plmi_card_reading *reading)
{
    const struct plm_card *card = reading->card;
    bool low = card->stated.gf_low_pct, high = card->stated.gf_high_pct;
    if (low == high && (!low || card->rules.gf_low_pct <= card->rules.gf_high_pct)) {
        return;
    }
    plmi_diags_add(reading->diags, PLM_LEVEL_ERROR, PLM_DIAG_CARD, 0, 0,
                   low == high ? "gf_low_pct is above gf_high_pct"
                               : "one gradient factor without the other; gf = 30/70 in [dive] tells both");
    reading->failed = true;
}

static void take_entry(void *context, const struct plmi_ini_entry *entry)
{
    struct plmi_card_reading *reading = context;
    if (plmi_text_same(entry->section, "dive")) {
        take_key(reading, plmi_card_dive_keys, entry);
    } else if (plmi_text_same(entry->section, "mixes")) {
        const char *wrong = plmi_card_mix_take(reading, entry->key, entry->value);
        if (wrong != NULL) {
            refuse(reading, entry, wrong);
        }
    } else if (plmi_text_same(entry->section, "rules")) {
        take_rule(reading, entry);
    } else if (plmi_text_starts(entry->section, "at ")) {
        reading->at = change_at(reading, entry);
        if (reading->at != NULL) {
            take_key(reading, plmi_card_at_keys, entry);
        }
    } else {
        refuse(reading, entry, "stands in no section that a card has: [dive], [mixes], [rules], [at TIME]");
    }
}

static int by_time(const void *a, const void *b)
{
    double x = ((const struct plmi_card_change *)a)->time_s, y = ((const struct plmi_card_change *)b)->time_s;
    return (x > y) - (x < y);
}

static struct plm_card *card_new(const char *file)
{
    struct plm_card *card = calloc(1, sizeof *card);
    if (card == NULL) {
        return NULL;
    }
    plmi_arena_init(&card->arena);
    card->rules = plm_rules_default();
    card->surface_bar = card->altitude_m = card->water_kg_m3 = (double)NAN;
    card->file = plmi_arena_text(&card->arena, file != NULL ? file : "card", strlen(file != NULL ? file : "card"));
    if (card->file != NULL) {
        return card;
    }
    plm_card_free(card);
    return NULL;
}

enum plm_status plm_card_read(struct plm_card **out, struct plm_source *source, const struct plm_rules *rules,
                              const struct plm_diag_sink *sink)
{
    struct plmi_fold fold;
    struct plmi_diags diags;
    struct plmi_card_reading reading = {.card = card_new(plm_source_name(source)), .diags = &diags, .rules = rules};
    *out = NULL;
    plmi_fold_init(&fold, sink, plm_source_name(source));
    plmi_diags_init(&diags, &fold.sink, plm_source_name(source));
    if (reading.card == NULL) {
        return plmi_diags_no_memory(&diags, 0, "for the card");
    }
    enum plm_status status = plmi_ini_read(source, PLM_DIAG_CARD, take_entry, &reading, &diags);
    check_factors(&reading);
    if (status == PLM_STATUS_OK && reading.failed) {
        status = PLM_STATUS_INPUT;
    }
    plmi_fold_finish(&fold);
    if (status != PLM_STATUS_OK) {
        plm_card_free(reading.card);
        return status;
    }
    qsort(reading.card->changes, (size_t)reading.card->change_count, sizeof reading.card->changes[0], by_time);
    *out = reading.card;
    return PLM_STATUS_OK;
}

const char *plm_card_diver(const struct plm_card *card)
{
    return card->diver;
}

const char *plm_card_plan(const struct plm_card *card)
{
    return card->plan;
}

void plm_card_rules_lay(const struct plm_card *card, struct plm_rules *rules, const struct plm_rules_stated *kept)
{
    struct plm_rules_stated stated = card->stated;
    stated.gf_low_pct = stated.gf_high_pct = false;
    plm_rules_lay(rules, &card->rules, &stated, kept);
}

bool plm_card_mix(const struct plm_card *card, size_t i, struct plm_dive_mix *mix)
{
    if (i >= (size_t)card->mix_count) {
        return false;
    }
    const struct plmi_card_mix *named = &card->mixes[i];
    *mix = (struct plm_dive_mix){.mix = {named->o2_frac, named->he_frac, 1 - named->o2_frac - named->he_frac},
                                 .id = named->name,
                                 .name = named->name,
                                 .use = named->use,
                                 .carried = named->carried,
                                 .po2_max_bar = named->po2_max_bar};
    return true;
}

void plm_card_free(struct plm_card *card)
{
    if (card == NULL) {
        return;
    }
    plmi_arena_free(&card->arena);
    free(card);
}
