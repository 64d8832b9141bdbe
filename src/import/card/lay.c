/*
 * Lays a dive card over a dive in a builder. Where the card says nothing the log's word stands.
 * SPDX-License-Identifier: MIT
 */
#include "import/card/lay.h"

#include <math.h>
#include <string.h>

#include "base/diags.h"
#include "import/card/card.h"

struct laying {
    const struct plm_card *card;
    struct plm_dive_builder *builder;
    uint32_t mixes[PLMI_CARD_MIXES];
    uint32_t assumed; /* the mix that was taken for want of any; only_one takes its place */
    bool only_one;    /* the card names one mix and no change of mix: it was breathed from the start */
};

/* Whether the only mix that anybody names is the card's, and nothing says that it was for later. */
static bool names_only_one(const struct plm_card *card, const struct plm_dive_info *info)
{
    bool only = !info->gas_known && card->mix_count == 1 && card->mixes[0].use != PLM_MIX_USE_BAILOUT &&
                card->mixes[0].use != PLM_MIX_USE_DECO;
    for (int i = 0; i < card->change_count; i++) {
        only = only && card->changes[i].mix < 0;
    }
    return only;
}

static void lay_text(struct plm_dive_builder *builder, const char **place, const char *text)
{
    if (text != NULL) {
        *place = plm_dive_builder_text(builder, text);
    }
}

void plmi_card_lay_start(struct plm_stamp *start, const struct plm_stamp *first, const struct plm_card *card)
{
    if (card->start.known) {
        bool later = first != NULL && first->known && start->known;
        int64_t apart_ms = later ? start->local_ms - first->local_ms : 0;
        if (first == NULL || later) {
            *start = card->start;
        }
        start->local_ms += apart_ms;
    }
    if (card->has_zone && start->known && !start->has_zone) {
        start->has_zone = true;
        start->offset_min = card->zone_min;
    }
}

static void lay_info(struct plm_dive_builder *builder, const struct plm_card *card)
{
    struct plm_dive_info *info = plm_dive_builder_info(builder);
    lay_text(builder, &info->diver, card->diver);
    lay_text(builder, &info->recorder, card->recorder);
    lay_text(builder, &info->site, card->site);
    if (!isnan(card->surface_bar)) {
        info->surface_bar = card->surface_bar;
    }
    if (!isnan(card->altitude_m)) {
        info->altitude_m = card->altitude_m;
        info->surface_bar = card->surface_bar;
    }
    if (!isnan(card->water_kg_m3)) {
        info->water_kg_m3 = card->water_kg_m3;
    }
    if (card->stated.gf_low_pct) {
        info->gf_low_pct = card->rules.gf_low_pct;
        info->gf_high_pct = card->rules.gf_high_pct;
        info->gf_by_card = true;
    }
    for (int i = 0; i < card->change_count; i++) {
        info->gas_known = info->gas_known || (card->changes[i].mix >= 0 && card->changes[i].time_s <= 0);
        info->mode_known = info->mode_known || card->changes[i].has_mode;
    }
}

/* Whether the dive took this mix from the card already; index is the place of it. */
static bool mix_taken(const struct plm_dive *dive, const struct plmi_card_mix *mix, uint32_t *index)
{
    const double same = 1e-9;
    size_t count;
    const struct plm_dive_mix *mixes = plm_dive_mixes(dive, &count);
    for (size_t i = 0; i < count; i++) {
        if (strcmp(mixes[i].id, mix->name) == 0 && fabs(mixes[i].mix.o2_frac - mix->o2_frac) < same &&
            fabs(mixes[i].mix.he_frac - mix->he_frac) < same) {
            *index = (uint32_t)i;
            return true;
        }
    }
    return false;
}

static enum plm_status lay_mixes(struct laying *laying, const struct plm_dive *dive)
{
    for (int i = 0; i < laying->card->mix_count; i++) {
        const struct plmi_card_mix *mix = &laying->card->mixes[i];
        enum plm_status status =
            mix_taken(dive, mix, &laying->mixes[i])
                ? PLM_STATUS_OK
                : plm_dive_builder_mix(laying->builder, mix->name, mix->name, mix->o2_frac, mix->he_frac, (double)NAN,
                                       (double)NAN, (double)NAN, mix->use, 0, &laying->mixes[i]);
        if (status != PLM_STATUS_OK) {
            return status;
        }
        if (mix->carried) {
            plm_dive_builder_carry(laying->builder, laying->mixes[i], mix->use, mix->po2_max_bar);
        }
    }
    return PLM_STATUS_OK;
}

static enum plm_status at(void *context, double time_s, struct plm_setting *setting)
{
    const struct laying *laying = context;
    if (laying->only_one && setting->mix == laying->assumed) {
        setting->mix = laying->mixes[0];
    }
    for (int i = 0; i < laying->card->change_count && laying->card->changes[i].time_s <= time_s; i++) {
        const struct plmi_card_change *change = &laying->card->changes[i];
        if (change->has_mode) {
            setting->mode = change->mode;
        }
        if (change->mix >= 0) {
            setting->mix = laying->mixes[change->mix];
        }
        if (change->has_setpoint) {
            setting->setpoint_bar = change->setpoint_bar;
        }
    }
    return PLM_STATUS_OK;
}

static double next_s(void *context, double after_s)
{
    const struct laying *laying = context;
    for (int i = 0; i < laying->card->change_count; i++) {
        if (laying->card->changes[i].time_s > after_s) {
            return laying->card->changes[i].time_s;
        }
    }
    return (double)INFINITY;
}

static void tell_late(const struct plm_card *card, const struct plm_dive *dive, const struct plm_diag_sink *sink)
{
    size_t count;
    const struct plm_sample *samples = plm_dive_samples(dive, &count);
    struct plmi_diags diags;
    plmi_diags_init(&diags, sink, card->file);
    for (int i = 0; i < card->change_count; i++) {
        if (card->changes[i].time_s * 1000.0 > (double)samples[count - 1].time_ms) {
            plmi_diags_add(&diags, PLM_LEVEL_WARNING, PLM_DIAG_CARD, 0, 0,
                           "a change at %ld s comes after the end of the dive; it has no effect",
                           (long)card->changes[i].time_s);
        }
    }
}

enum plm_status plmi_card_lay(struct plm_dive_builder *builder, const struct plm_dive *dive,
                              const struct plm_card *card, const struct plm_diag_sink *sink)
{
    struct plm_dive_info *info = plm_dive_builder_info(builder);
    struct laying laying = {.card = card, .builder = builder, .only_one = names_only_one(card, info)};
    const struct plm_relay relay = {at, next_s, &laying};
    size_t count;
    laying.assumed = plm_dive_settings(dive, &count)[plm_dive_samples(dive, &count)[0].setting].mix;
    tell_late(card, dive, sink);
    lay_info(builder, card);
    info->gas_known = info->gas_known || laying.only_one;
    enum plm_status status = lay_mixes(&laying, dive);
    bool changes = card->change_count > 0 || laying.only_one;
    return status == PLM_STATUS_OK && changes ? plm_dive_builder_relay(builder, dive, &relay) : status;
}
