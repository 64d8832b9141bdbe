/*
 * The kinds of dives in the field, their recorders, and what nature does to them. Invented, like all the samples.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <stdio.h>

#include "generate/field.h"

static struct plm_mix mix_of(double o2_frac, double he_frac)
{
    return (struct plm_mix){o2_frac, he_frac, 1 - o2_frac - he_frac};
}

static double whole(struct gen_random *random, double low, double high)
{
    return floor(gen_random_between(random, low, high + 1));
}

static bool chance(struct gen_random *random, double share)
{
    return gen_random_uniform(random) < share;
}

static void levels_set(struct gen_dive *dive, struct gen_random *random, double depth_m, double bottom_s)
{
    if (chance(random, 0.5)) {
        dive->levels[dive->level_count++] = (struct gen_level){depth_m, bottom_s};
        return;
    }
    dive->levels[dive->level_count++] = (struct gen_level){depth_m, floor(bottom_s * 0.6)};
    dive->levels[dive->level_count++] = (struct gen_level){floor(depth_m * 0.93), bottom_s};
}

static void deco_add(struct gen_dive *dive, double o2_frac, double he_frac, double depth_m)
{
    dive->deco[dive->deco_count++] = (struct gen_deco){mix_of(o2_frac, he_frac), depth_m};
}

/* Diluents that hold less than the set point at the bottom. */
static void loop_mixes(struct gen_field_dive *field, double depth_m)
{
    struct gen_dive *dive = &field->dive;
    dive->mode = PLM_MODE_CLOSED;
    dive->mix = depth_m > 70 ? mix_of(0.09, 0.75) : mix_of(0.14, 0.55);
    dive->setpoints[0] = (struct gen_setpoint){0.7, GEN_AT_START, 0};
    dive->setpoints[1] = (struct gen_setpoint){1.2, GEN_DOWN, 21};
    dive->setpoints[2] = (struct gen_setpoint){1.3, GEN_FIRST_STOP, 0};
    dive->setpoint_count = 3;
    if (depth_m > 70) {
        deco_add(dive, 0.10, 0.70, 120);
    }
    deco_add(dive, 0.16, 0.50, 70);
    deco_add(dive, 0.50, 0.20, 21);
}

static void make_loop(struct gen_field_dive *field, struct gen_random *random)
{
    /* A long one comes to more oxygen than the clock of a single exposure allows. */
    bool long_one = chance(random, 0.2);
    double depth_m = whole(random, long_one ? 85 : 50, 110);
    loop_mixes(field, depth_m);
    double bottom_s = whole(random, 600, 900) + 12 * (110 - depth_m);
    levels_set(&field->dive, random, depth_m, long_one ? bottom_s + 600 : bottom_s);
}

static void make_open_two(struct gen_field_dive *field, struct gen_random *random)
{
    struct gen_dive *dive = &field->dive;
    double depth_m = whole(random, 42, 60);
    /* With little helium it is dense and narcotic. */
    bool lean = chance(random, 0.25);
    dive->mix = lean ? mix_of(0.20, 0.15) : mix_of(0.18, 0.45);
    deco_add(dive, 0.50, 0, 21);
    deco_add(dive, 1, 0, 6);
    levels_set(dive, random, depth_m, whole(random, 1000, 1500));
}

static void make_open_three(struct gen_field_dive *field, struct gen_random *random)
{
    struct gen_dive *dive = &field->dive;
    double depth_m = whole(random, 65, 90);
    dive->mix = mix_of(0.13, 0.60);
    field->travel = (struct gen_travel){mix_of(0.30, 0.30), 30};
    deco_add(dive, 0.30, 0.30, 36);
    deco_add(dive, 0.50, 0, 21);
    deco_add(dive, 1, 0, 6);
    levels_set(dive, random, depth_m, whole(random, 700, 1000));
}

static void make_nitrox(struct gen_field_dive *field, struct gen_random *random)
{
    struct gen_dive *dive = &field->dive;
    dive->mix = mix_of(0.32, 0);
    double depth_m = whole(random, 14, 28);
    double bottom_s = depth_m > 22 ? whole(random, 700, 900) : whole(random, 1200, 1700);
    levels_set(dive, random, depth_m, bottom_s);
    dive->levels[dive->level_count++] = (struct gen_level){floor(depth_m * 0.55), bottom_s + whole(random, 300, 700)};
    if (chance(random, 0.7)) {
        dive->safety = (struct gen_safety){5, 180};
    }
}

static void make_nitrox_stops(struct gen_field_dive *field, struct gen_random *random)
{
    field->dive.mix = mix_of(0.28, 0);
    levels_set(&field->dive, random, whole(random, 30, 36), whole(random, 1500, 2000));
}

static void make_bailout(struct gen_field_dive *field, struct gen_random *random)
{
    double depth_m = whole(random, 45, 75);
    loop_mixes(field, depth_m);
    levels_set(&field->dive, random, depth_m, whole(random, 700, 1000));
    field->dive.bailout_s = field->dive.levels[field->dive.level_count - 1].until_s;
}

static const struct {
    const char *word;
    void (*make)(struct gen_field_dive *field, struct gen_random *random);
    double last_six; /* share of those whose last stop is at 6 m */
} kinds[GEN_KINDS] = {
    {"loop", make_loop, 0.3},   {"open-two-mixes", make_open_two, 0.6}, {"open-three-mixes", make_open_three, 0.6},
    {"nitrox", make_nitrox, 0}, {"nitrox-stops", make_nitrox_stops, 0}, {"bailout", make_bailout, 0.3},
};

const char *gen_kind_word(enum gen_kind kind)
{
    return kinds[kind].word;
}

static void nature_make(struct gen_field_dive *field, struct gen_random *random)
{
    bool deep = field->kind != GEN_KIND_NITROX && field->kind != GEN_KIND_NITROX_STOPS;
    double depth_m = field->dive.levels[0].depth_m;
    bool yoyo = chance(random, 0.3), bobs = chance(random, 0.5), tight = chance(random, 0.35);
    field->nature = (struct gen_nature){
        .alive = true,
        .wave_m = gen_random_between(random, 0.1, 0.25),
        .wave_s = gen_random_between(random, 5, 9),
        .sag_low_m = tight ? -0.15 : 0.1,
        .sag_high_m = tight ? 0.15 : gen_random_between(random, 0.3, 0.5),
        .wander_m = gen_random_between(random, 0.08, tight ? 0.18 : 0.2),
        .unsteady = gen_random_between(random, 0.05, 0.12),
        .bottom_m = gen_random_between(random, 0.2, 0.6),
        .yoyo_m = yoyo ? gen_random_between(random, 0.03, deep ? 0.08 : 0.18) * depth_m : 0,
        .yoyo_s = yoyo ? gen_random_between(random, 240, 420) : 0,
        .late_s = tight ? 4 : 40,
        .last_stop_m = chance(random, kinds[field->kind].last_six) ? 6 : 3,
        .bob_s = bobs ? whole(random, 120, 420) : 0,
        .head_m = 0.9,
    };
}

static void recorder_make(struct gen_field_dive *field, struct gen_random *random)
{
    struct gen_recorder *recorder = &field->recorder;
    static const double intervals_s[] = {2, 5, 5, 10, 10, 10};
    *recorder = gen_recorder_default("field recorder");
    recorder->interval_s = intervals_s[(int)whole(random, 0, 5)];
    double sampling = gen_random_uniform(random);
    recorder->jitter_s = sampling < 0.25 && recorder->interval_s > 2 ? floor(recorder->interval_s * 0.4) : 0;
    if (sampling > 0.85) {
        recorder->interval_s = 2;
        recorder->change_m = gen_random_between(random, 0.2, 0.4);
    }
    if (field->dive.setpoint_count > 0) {
        recorder->cells = GEN_CELLS;
        recorder->cell_noise_bar = gen_random_between(random, 0.005, 0.02);
        for (int i = 0; i < GEN_CELLS; i++) {
            recorder->cell_gain[i] = gen_random_between(random, 0.985, 1.015);
        }
        /* Each cell is off, their mean is right: what the diver's own stops went by is what was logged. */
        recorder->cell_gain[2] = 3 - recorder->cell_gain[0] - recorder->cell_gain[1];
        recorder->cell_lag_s[(int)whole(random, 0, 2)] = gen_random_between(random, 15, 30);
    }
}

void gen_field_dive_find(struct gen_field_dive *out, enum gen_kind kind, int number, const char *name,
                         struct gen_random *random)
{
    static const int64_t first_day_ms = INT64_C(1956528000000); /* 2032-01-01 */
    *out = (struct gen_field_dive){.kind = kind, .number = number, .dive = gen_dive_default(name)};
    snprintf(out->dive.diver, sizeof out->dive.diver, "field %s", name);
    kinds[kind].make(out, random);
    struct gen_dive *dive = &out->dive;
    dive->descent_m_min = whole(random, 14, 20);
    dive->ascent_m_min = gen_random_between(random, 7, 9.6);
    dive->shallow_m_min = gen_random_between(random, 3, 5.8);
    dive->last_m_min = gen_random_between(random, 1.5, 5);
    dive->start_ms = first_day_ms + number * INT64_C(86400000) + (int64_t)whole(random, 450, 840) * 60000;
    nature_make(out, random);
    recorder_make(out, random);
}
