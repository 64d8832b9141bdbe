/*
 * Random dives: numbers with few digits and with all of them, texts that markup and tables have to quote.
 * Must not make what the builder would put right.
 * SPDX-License-Identifier: MIT
 */
#include "odd_dive.h"

#include <check.h>
#include <math.h>
#include <stdio.h>

#include <plimsoll/dive_builder.h>

#define MIXES_MAX 6

static const char *const TEXTS[] = {
    "Tern",
    "a & b <script>",
    "it's \"quoted\"",
    "back\\slash; semicolon, comma",
    "Ünïcode ☃",
    "x=1: y",
    "tank A",
    "mix-1",
    "site-1",
    "two  blanks",
    "=1+1",
    "'=x",
    "-1",
    "\\u{1b}",
    "T\xe2\x80\xae\xd8\x9ctern\xc2\x9b",
};

struct odd {
    struct seeded *seeded;
    struct plm_dive_builder *builder;
    uint32_t mixes[MIXES_MAX];
    size_t mix_count;
};

static bool chance(struct odd *odd, double share)
{
    return seeded_uniform(odd->seeded) < share;
}

static size_t below(struct odd *odd, size_t count)
{
    return (size_t)(seeded_uniform(odd->seeded) * (double)count);
}

static const char *text_of(struct odd *odd)
{
    return TEXTS[below(odd, sizeof TEXTS / sizeof TEXTS[0])];
}

/* A number as people write it, or with all its digits. */
static double number(struct odd *odd, double low, double high)
{
    double value = seeded_between(odd->seeded, low, high);
    double step = chance(odd, 0.5) ? 100 : 1000;
    return chance(odd, 0.5) ? value : round(value * step) / step;
}

static double maybe(struct odd *odd, double low, double high)
{
    return chance(odd, 0.6) ? number(odd, low, high) : (double)NAN;
}

static void fill_info(struct odd *odd, int index, bool plain)
{
    struct plm_dive_info *info = plm_dive_builder_info(odd->builder);
    info->index = index;
    info->id = chance(odd, 0.5) ? plm_dive_builder_text(odd->builder, chance(odd, 0.5) ? "d1" : text_of(odd)) : NULL;
    info->number = chance(odd, 0.5) ? plm_dive_builder_text(odd->builder, "12b") : NULL;
    info->diver = chance(odd, 0.8) ? plm_dive_builder_text(odd->builder, text_of(odd)) : NULL;
    info->recorder = chance(odd, 0.8) ? plm_dive_builder_text(odd->builder, text_of(odd)) : NULL;
    info->site = chance(odd, 0.8) ? plm_dive_builder_text(odd->builder, text_of(odd)) : NULL;
    info->notes = chance(odd, 0.5) ? plm_dive_builder_text(odd->builder, "first line\nsecond & last") : NULL;
    info->start = (struct plm_stamp){.known = chance(odd, 0.8)};
    if (info->start.known) {
        info->start.local_ms =
            (int64_t)(seeded_between(odd->seeded, 0, 60) * 365 * 86400) * 1000 + (int64_t)below(odd, 1000);
        info->start.has_clock = chance(odd, 0.9);
        info->start.has_zone = info->start.has_clock && chance(odd, 0.7);
        info->start.offset_min = info->start.has_zone ? (int)below(odd, 1440) - 720 : 0;
        info->start.local_ms -= info->start.has_clock ? 0 : info->start.local_ms % 86400000;
    }
    info->surface_bar = maybe(odd, 0.6, 1.1);
    info->altitude_m = maybe(odd, -100, 3000);
    info->water_kg_m3 = maybe(odd, 990, 1030);
    info->gf_low_pct = maybe(odd, 1, 60);
    info->gf_high_pct = isnan(info->gf_low_pct) ? info->gf_low_pct : info->gf_low_pct + 37.7;
    info->surface_interval_s = plain                            ? (double)NAN
                               : index == 1 || chance(odd, 0.2) ? (double)INFINITY
                                                                : maybe(odd, 600, 90000);
    info->group = plain ? 1 : 1 + index / 3;
}

/* carried: some are; a plan carries what it breathes and nothing else. */
static void add_mixes(struct odd *odd, bool plain, bool carried)
{
    odd->mix_count = 1 + below(odd, MIXES_MAX - 1);
    for (size_t i = 0; i < odd->mix_count; i++) {
        double o2_frac = number(odd, 0.04, 0.99);
        double he_frac = chance(odd, 0.5) ? 0 : number(odd, 0, 1 - o2_frac);
        he_frac = he_frac > 1 - o2_frac ? 0 : he_frac;
        char id[16];
        snprintf(id, sizeof id, i == 0 ? "d%zu" : "gas %zu", i + 1);
        const char *named = chance(odd, 0.3) ? text_of(odd) : "";
        ck_assert_int_eq(plm_dive_builder_mix(odd->builder, plain ? "" : id, plain ? "" : named, o2_frac, he_frac,
                                              (double)NAN, (double)NAN, (double)NAN, PLM_MIX_USE_ANY, 0,
                                              &odd->mixes[i]),
                         PLM_STATUS_OK);
        if (carried && chance(odd, 0.5)) {
            plm_dive_builder_carry(odd->builder, odd->mixes[i], (enum plm_mix_use)below(odd, 4), maybe(odd, 1.1, 1.7));
        }
    }
}

static void change_settings(struct odd *odd, bool may_switch)
{
    if (may_switch && chance(odd, 0.5)) {
        plm_dive_builder_switch(odd->builder, odd->mixes[below(odd, odd->mix_count)], 0);
    }
    if (chance(odd, 0.5)) {
        plm_dive_builder_mode(odd->builder, (enum plm_mode)below(odd, 3), 0);
    }
    if (chance(odd, 0.5)) {
        plm_dive_builder_setpoint(odd->builder, maybe(odd, 0.4, 1.6), 0);
    }
}

static void add_events(struct odd *odd, int64_t time_ms)
{
    for (size_t count = chance(odd, 0.05) ? 40 : below(odd, 3); count > 0; count--) {
        struct plm_event event = {
            .time_ms = time_ms + (chance(odd, 0.3) ? 1 + (int64_t)below(odd, 900) : 0),
            .kind = (enum plm_event_kind)below(odd, PLM_EVENT_COUNT),
            .value = maybe(odd, chance(odd, 0.5) ? -3 : 3, 300),
            .value2 = chance(odd, 0.8) ? (double)NAN : number(odd, 0, 500),
            .text = chance(odd, 0.5) ? "" : text_of(odd),
        };
        ck_assert_int_eq(plm_dive_builder_event(odd->builder, &event), PLM_STATUS_OK);
    }
}

static double partial_bar(struct odd *odd)
{
    return !chance(odd, 0.7)  ? (double)NAN
           : chance(odd, 0.1) ? 0
           : chance(odd, 0.1) ? number(odd, 0, 0.0001)
                              : number(odd, 0, 3);
}

static void add_samples(struct odd *odd, bool gas_told)
{
    size_t count = 4 + below(odd, 60);
    int64_t time_ms = chance(odd, 0.2) ? (int64_t)below(odd, 9000) : 0;
    double depth_m = 0;
    for (size_t i = 0; i < count; i++) {
        struct plm_sample sample = {.time_ms = time_ms, .depth_m = depth_m, .line = (uint32_t)i + 1};
        sample.temp_c = chance(odd, 0.7) ? round(seeded_between(odd->seeded, -40, 70) * 1e6) / 1e6 : (double)NAN;
        sample.po2_bar = partial_bar(odd);
        for (int cell = 0; cell < PLM_CELLS; cell++) {
            sample.cell_bar[cell] = cell == 1 ? partial_bar(odd) : chance(odd, 0.2) ? partial_bar(odd) : (double)NAN;
        }
        if (i == 0 && gas_told) {
            plm_dive_builder_switch(odd->builder, odd->mixes[0], 0);
        }
        if (chance(odd, 0.2)) {
            change_settings(odd, gas_told || i > 2);
        }
        ck_assert_int_eq(plm_dive_builder_sample(odd->builder, &sample), PLM_STATUS_OK);
        add_events(odd, time_ms);
        time_ms += chance(odd, 0.1) ? 0 : chance(odd, 0.5) ? 10000 : (int64_t)below(odd, 30000) + 1;
        depth_m = chance(odd, 0.1) ? depth_m : chance(odd, 0.1) ? 0 : number(odd, 0, 90);
    }
    struct plm_sample last = {.time_ms = time_ms + 1, .depth_m = 12.5, .temp_c = (double)NAN, .po2_bar = (double)NAN};
    for (int cell = 0; cell < PLM_CELLS; cell++) {
        last.cell_bar[cell] = (double)NAN;
    }
    ck_assert_int_eq(plm_dive_builder_sample(odd->builder, &last), PLM_STATUS_OK);
}

static struct plm_dive *plan_of(struct odd *odd, const struct plm_rules *rules)
{
    struct odd plan = {.seeded = odd->seeded, .builder = plm_dive_builder_new("odd", rules, NULL)};
    struct plm_dive *out = NULL;
    ck_assert_ptr_nonnull(plan.builder);
    add_mixes(&plan, false, false);
    bool told = chance(odd, 0.8);
    if (told) {
        plm_dive_builder_switch(plan.builder, plan.mixes[0], 0);
    }
    double depths_m[] = {0, number(odd, 10, 90), number(odd, 10, 90), 6, 0};
    for (size_t i = 0; i < sizeof depths_m / sizeof depths_m[0]; i++) {
        struct plm_sample sample = {
            .time_ms = (int64_t)i * 300000, .depth_m = depths_m[i], .temp_c = (double)NAN, .po2_bar = (double)NAN};
        for (int cell = 0; cell < PLM_CELLS; cell++) {
            sample.cell_bar[cell] = (double)NAN;
        }
        if (i > 0) {
            change_settings(&plan, told);
        }
        ck_assert_int_eq(plm_dive_builder_sample(plan.builder, &sample), PLM_STATUS_OK);
    }
    ck_assert_int_eq(plm_dive_builder_finish(plan.builder, &out), PLM_STATUS_OK);
    return out;
}

struct plm_dive *odd_dive(struct seeded *seeded, int index, bool plain)
{
    struct plm_rules rules = plm_rules_default();
    struct odd odd = {.seeded = seeded, .builder = plm_dive_builder_new("odd", &rules, NULL)};
    struct plm_dive *dive = NULL;
    ck_assert_ptr_nonnull(odd.builder);
    fill_info(&odd, index, plain);
    add_mixes(&odd, plain, true);
    add_samples(&odd, chance(&odd, 0.7));
    if (!plain && chance(&odd, 0.3)) {
        plm_dive_builder_plan(odd.builder, plan_of(&odd, &rules));
    }
    ck_assert_int_eq(plm_dive_builder_finish(odd.builder, &dive), PLM_STATUS_OK);
    return dive;
}
