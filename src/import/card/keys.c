/*
 * What each key of a dive card takes. A value that is not taken is named with what would be.
 * SPDX-License-Identifier: MIT
 */
#include "import/card/keys.h"

#include <plimsoll/names.h>

#include <math.h>
#include <string.h>

#include "base/clock.h"
#include "base/number.h"
#include "base/plain.h"
#include "base/text.h"
#include "import/format/breathing.h"
#include "import/format/factors.h"

static const char *keep(struct plmi_card_reading *reading, const char **place, const char *value)
{
    size_t n = strlen(value);
    char *kept = plmi_arena_text(&reading->card->arena, value, n);
    if (kept != NULL) {
        kept[plmi_escapes_read(kept, n)] = '\0';
    }
    *place = kept;
    return kept != NULL ? NULL : "no memory for it";
}

static const char *take_diver(struct plmi_card_reading *reading, const char *value)
{
    return !plm_name_same(value, "") ? keep(reading, &reading->card->diver, value) : "a name is needed";
}

static const char *take_recorder(struct plmi_card_reading *reading, const char *value)
{
    return keep(reading, &reading->card->recorder, value);
}

static const char *take_site(struct plmi_card_reading *reading, const char *value)
{
    return keep(reading, &reading->card->site, value);
}

static const char *take_plan(struct plmi_card_reading *reading, const char *value)
{
    return value[0] ? keep(reading, &reading->card->plan, value) : "the name of a file is needed";
}

static const char *take_start(struct plmi_card_reading *reading, const char *value)
{
    struct plm_stamp stamp;
    if (!plmi_clock_parse(value, strlen(value), &stamp) || !stamp.has_clock) {
        return "a date and time as 2031-05-06T09:30+10:00 is needed";
    }
    reading->card->start = stamp;
    return NULL;
}

static const char *take_zone(struct plmi_card_reading *reading, const char *value)
{
    reading->card->has_zone = plmi_clock_zone_parse(value, &reading->card->zone_min);
    return reading->card->has_zone ? NULL : "a zone as +10:00 or Z is needed";
}

static bool number_in(const char *value, double low, double high, double *number)
{
    double parsed;
    if (!plmi_number_parse(value, strlen(value), '.', &parsed) || parsed < low || parsed > high) {
        return false;
    }
    *number = parsed;
    return true;
}

static const char *take_surface(struct plmi_card_reading *reading, const char *value)
{
    return number_in(value, PLM_SURFACE_LEAST_BAR, PLM_SURFACE_MOST_BAR, &reading->card->surface_bar)
               ? NULL
               : "a pressure in bar from 0.4 to 1.2 is needed";
}

static const char *take_altitude(struct plmi_card_reading *reading, const char *value)
{
    return number_in(value, PLM_ALTITUDE_LEAST_M, PLM_ALTITUDE_MOST_M, &reading->card->altitude_m)
               ? NULL
               : "an altitude in m from -500 to 9000 is needed";
}

static const char *take_water(struct plmi_card_reading *reading, const char *value)
{
    static const struct {
        const char *word;
        double kg_m3;
    } WATERS[] = {{"salt", 1025}, {"fresh", 1000}, {"en13319", 1019.7162}};
    for (size_t i = 0; i < sizeof WATERS / sizeof WATERS[0]; i++) {
        if (plmi_text_same(WATERS[i].word, value)) {
            reading->card->water_kg_m3 = WATERS[i].kg_m3;
            return NULL;
        }
    }
    return number_in(value, PLM_WATER_LEAST_KG_M3, PLM_WATER_MOST_KG_M3, &reading->card->water_kg_m3)
               ? NULL
               : "salt, fresh, en13319 or a density in kg/m3 is needed";
}

static const char FACTORS[] = "two gradient factors in percent, 1 to 100, the first not above the second, as 30/70";

static const char *take_factors(struct plmi_card_reading *reading, const char *value)
{
    struct plm_card *card = reading->card;
    double low_pct, high_pct;
    if (plm_rules_stated_has(&card->stated, "gf_low_pct") || plm_rules_stated_has(&card->stated, "gf_high_pct")) {
        return "gradient factors stand before; a card tells them once";
    }
    if (!plmi_factors_parse(value, &low_pct, &high_pct) || !(low_pct >= 1 && low_pct <= high_pct && high_pct <= 100)) {
        return FACTORS;
    }
    card->rules.gf_low_pct = low_pct;
    card->rules.gf_high_pct = high_pct;
    card->stated.gf_low_pct = card->stated.gf_high_pct = true;
    return NULL;
}

const char *plmi_card_rule_take(struct plmi_card_reading *reading, const char *key, const char *value)
{
    struct plm_card *card = reading->card;
    if (plm_rules_stated_has(&card->stated, key)) {
        return "this rule stands before; a card tells it once";
    }
    if (plm_rules_set(&card->rules, key, value) != PLM_STATUS_OK) {
        return "no value that this rule can have; plimsoll rules lists them";
    }
    plm_rules_stated_add(&card->stated, key);
    return NULL;
}

const struct plmi_card_key plmi_card_dive_keys[] = {
    {"diver", take_diver},
    {"start", take_start},
    {"zone", take_zone},
    {"surface_bar", take_surface},
    {"altitude_m", take_altitude},
    {"water", take_water},
    {"recorder", take_recorder},
    {"site", take_site},
    {"plan", take_plan},
    {"gf", take_factors},
    {NULL, NULL},
};

static const char *take_mode(struct plmi_card_reading *reading, const char *value)
{
    bool apnoe = false;
    if (!plmi_mode_parse(value, &reading->at->mode, &apnoe) || apnoe) {
        return "open, closed or semiclosed is needed";
    }
    reading->at->has_mode = true;
    return NULL;
}

/* A mix by its name in [mixes], or stated outright. */
static const char *take_mix(struct plmi_card_reading *reading, const char *value)
{
    struct plm_card *card = reading->card;
    for (int i = 0; i < card->mix_count; i++) {
        if (plmi_text_same(card->mixes[i].name, value)) {
            reading->at->mix = i;
            return NULL;
        }
    }
    double o2_frac, he_frac;
    if (!plmi_mix_name_parse(value, &o2_frac, &he_frac)) {
        return "a name from [mixes], which stands before, or a mix as 18/45 is needed";
    }
    if (card->mix_count == PLMI_CARD_MIXES) {
        return "more mixes than a card may tell";
    }
    card->mixes[card->mix_count] = (struct plmi_card_mix){
        .o2_frac = o2_frac, .he_frac = he_frac, .po2_max_bar = (double)NAN, .use = PLM_MIX_USE_ANY};
    const char *wrong = keep(reading, &card->mixes[card->mix_count].name, value);
    if (wrong == NULL) {
        reading->at->mix = card->mix_count++;
    }
    return wrong;
}

static const char *take_setpoint(struct plmi_card_reading *reading, const char *value)
{
    if (!number_in(value, 0.1, 2.0, &reading->at->setpoint_bar)) {
        return "a set point in bar from 0.1 to 2 is needed";
    }
    reading->at->has_setpoint = true;
    return NULL;
}

const struct plmi_card_key plmi_card_at_keys[] = {
    {"mode", take_mode}, {"mix", take_mix}, {"setpoint_bar", take_setpoint}, {NULL, NULL}};

/* Words behind a mix, and what they say of its use; those that are carried may be chosen by schedules. */
static const struct {
    const char *word;
    enum plm_mix_use use;
    bool carried;
} USES[] = {
    {"diluent", PLM_MIX_USE_DILUENT, false}, {"carried", PLM_MIX_USE_ANY, true}, {"bailout", PLM_MIX_USE_BAILOUT, true},
    {"bail-out", PLM_MIX_USE_BAILOUT, true}, {"deco", PLM_MIX_USE_DECO, true},
};

/* One word behind the mix: a use, or the highest oxygen pressure as "1.6bar". */
static bool take_use(struct plmi_card_mix *mix, const char *word)
{
    size_t n = strlen(word);
    for (size_t i = 0; i < sizeof USES / sizeof USES[0]; i++) {
        if (plmi_text_same(USES[i].word, word)) {
            mix->use = USES[i].use;
            mix->carried = USES[i].carried;
            return true;
        }
    }
    double po2_bar;
    if (n < 4 || !plmi_text_same(word + n - 3, "bar") || !plmi_number_parse(word, n - 3, '.', &po2_bar) ||
        po2_bar < 0.2 || po2_bar > 3) {
        return false;
    }
    mix->po2_max_bar = po2_bar;
    return true;
}

/* Cuts the last word off a value; NULL where there is only one. */
static const char *last_word(char *value)
{
    size_t n = strlen(value);
    while (n > 0 && value[n - 1] == ' ') {
        value[--n] = '\0';
    }
    char *blank = strrchr(value, ' ');
    if (blank == NULL) {
        return NULL;
    }
    *blank = '\0';
    return blank + 1;
}

const char *plmi_card_mix_take(struct plmi_card_reading *reading, const char *name, const char *value)
{
    struct plm_card *card = reading->card;
    struct plmi_card_mix mix = {.po2_max_bar = (double)NAN};
    char words[200];
    if (card->mix_count == PLMI_CARD_MIXES) {
        return "more mixes than a card may tell";
    }
    if (strlen(value) >= sizeof words) {
        return "too long for a mix";
    }
    memcpy(words, value, strlen(value) + 1);
    for (int i = 0; i < card->mix_count; i++) {
        if (plmi_text_same(card->mixes[i].name, name)) {
            return "a mix of this name stands before";
        }
    }
    while (!plmi_mix_name_parse(words, &mix.o2_frac, &mix.he_frac)) {
        const char *word = last_word(words);
        if (word == NULL || !take_use(&mix, word)) {
            return "a mix as air, oxygen, nitrox 32 or 18/45 is needed; behind it may stand diluent, carried, bailout "
                   "or deco, and a limit as 1.6bar";
        }
    }
    const char *wrong = keep(reading, &mix.name, name);
    if (wrong == NULL) {
        card->mixes[card->mix_count++] = mix;
    }
    return wrong;
}
