/*
 * What is planted into dives: the diver's mishaps. What recorders do to a log stands in field_spoils.c.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "generate/field_faults.h"

#define BIT(kind) (1u << GEN_KIND_##kind)

static double between(struct gen_random *random, double low, double high)
{
    return gen_random_between(random, low, high);
}

/* ---- what was seen, second by second */

static double depth_at(const struct gen_made *made, double second)
{
    const struct gen_course *course = &made->lived->course;
    double last = (double)(course->count - 1);
    return course->depth_m[(size_t)fmax(0, fmin(last, second))];
}

/* [m/min] the steepest straight line through window_s of the course that begins or ends in the stretch. */
static double steepest_m_min(const struct gen_made *made, double from_s, double to_s)
{
    const double half_s = 10;
    double steepest = 0;
    for (double at_s = from_s - half_s; at_s <= to_s + half_s; at_s++) {
        double sum_td = 0, sum_tt = 0;
        for (double t = -half_s; t <= half_s; t++) {
            sum_td += t * depth_at(made, at_s + t);
            sum_tt += t * t;
        }
        steepest = fmax(steepest, -60 * sum_td / sum_tt);
    }
    return steepest;
}

struct worst {
    double over_points, over_m, last_over_s, long_s;
};

/* How far the ceiling was broken from a second on, as long as the breaks are less than a minute apart. */
static struct worst worst_from(const struct gen_made *made, double from_s)
{
    const struct gen_lived *lived = made->lived;
    struct worst worst = {.last_over_s = from_s};
    for (size_t i = (size_t)from_s; i < lived->course.count && (double)i < worst.last_over_s + 60; i++) {
        const struct gen_second *second = &lived->seconds[i];
        double over_m = second->ceiling_m - lived->course.depth_m[i];
        worst.over_points = fmax(worst.over_points, second->over_points);
        worst.over_m = fmax(worst.over_m, over_m);
        if (over_m > 0.1) {
            worst.long_s++;
            worst.last_over_s = (double)i;
        }
    }
    return worst;
}

/* By the rule of severity: under 5 points at most a caution, and for less than a minute a note; with a tenth of doubt.
 */
static const char *ceiling_severity(const struct worst *worst)
{
    if (worst->over_points < 4.5) {
        return "note caution";
    }
    if (worst->over_points < 5.5 && worst->long_s < 66) {
        return "note caution serious";
    }
    return worst->over_points > 10 && worst->long_s > 120 ? "serious" : "caution serious";
}

static void stretch_set(struct gen_line *line, const struct gen_made *made, double from_s, double to_s)
{
    line->from_s = from_s - made->record->begin_s;
    line->to_s = to_s - made->record->begin_s;
}

/* ---- ascents too fast */

static void plant_rush(struct gen_field_dive *field, double rate_m_min, double from_m, double to_m)
{
    field->mishap.rush.rate_m_min = rate_m_min;
    field->mishap.rush.from_m = from_m;
    field->mishap.rush.to_m = to_m;
}

static bool tell_rush(struct gen_line *line, struct gen_made *made)
{
    const struct gen_mark *mark = &made->lived->mark;
    if (isnan(mark->from_s)) {
        return false;
    }
    stretch_set(line, made, mark->from_s, mark->to_s);
    line->value = steepest_m_min(made, mark->from_s, mark->to_s);
    line->kind = "ascent-rate";
    line->also = "ceiling-exceeded";
    line->unit = "m/min";
    line->tolerance = fmax(1.5, 0.15 * line->value);
    double bar = 1.013 + 0.1 * depth_at(made, mark->to_s);
    bool breaks = worst_from(made, mark->from_s).over_points > 1;
    double relative_pct = 10 * line->value / bar;
    line->severity = breaks || relative_pct > 55 ? "caution serious" : "note caution serious";
    return true;
}

static void plant_deep(struct gen_field_dive *field, struct gen_random *random)
{
    double depth_m = field->dive.levels[field->dive.level_count - 1].depth_m;
    plant_rush(field, between(random, 22, 45), depth_m - 2, 0.72 * depth_m);
    field->mishap.rush.through = true;
}

static bool tell_deep(struct gen_line *line, struct gen_made *made)
{
    return tell_rush(line, made);
}

static void plant_runaway(struct gen_field_dive *field, struct gen_random *random)
{
    (void)random;
    field->dive.level_count = 1;
    field->dive.levels[0] = (struct gen_level){110, 800};
    field->dive.mix = (struct plm_mix){0.09, 0.75, 0.16};
    plant_rush(field, 45, 109, 25);
    field->mishap.rush.through = true;
}

static bool tell_runaway(struct gen_line *line, struct gen_made *made)
{
    bool found = tell_rush(line, made);
    struct worst worst = worst_from(made, made->lived->mark.from_s + 30);
    stretch_set(line, made, made->lived->mark.from_s, fmax(made->lived->mark.to_s, worst.last_over_s));
    line->also = "ceiling-exceeded stop-cut-short m-value-exceeded";
    line->severity = worst.over_points > 10 ? "serious" : "caution serious";
    return found;
}

static void plant_between(struct gen_field_dive *field, struct gen_random *random)
{
    plant_rush(field, between(random, 24, 40), 22, 7);
}

static bool tell_between(struct gen_line *line, struct gen_made *made)
{
    bool found = tell_rush(line, made);
    line->tolerance = 0.4 * line->value;
    return found && line->value > 14;
}

/* Three metres in 20 s: a recorder with a sample every 10 s may show as little as 6.8 m/min of it. */
static void plant_shallow_between(struct gen_field_dive *field, struct gen_random *random)
{
    field->nature.last_stop_m = 3;
    field->recorder.interval_s = fmin(5, field->recorder.interval_s);
    field->recorder.jitter_s = 0;
    plant_rush(field, between(random, 8.3, 9.1), 6.9, 2);
}

static bool tell_shallow_between(struct gen_line *line, struct gen_made *made)
{
    bool found = tell_rush(line, made);
    line->severity = line->value > 9.2 ? "note caution serious" : "note";
    line->tolerance = 2;
    return found;
}

static void plant_to_surface(struct gen_field_dive *field, struct gen_random *random)
{
    field->nature.last_stop_m = 6;
    field->dive.safety = (struct gen_safety){.stop_m = 6, .for_s = field->kind == GEN_KIND_NITROX ? 180 : 0};
    plant_rush(field, between(random, 8.3, 9.1), 7, -1);
}

static bool tell_to_surface(struct gen_line *line, struct gen_made *made)
{
    bool found = tell_rush(line, made);
    /* Near the general limit the swell decides. */
    line->severity = line->value > 9.2 ? "caution serious" : "caution";
    line->tolerance = 2;
    return found;
}

static void plant_blown(struct gen_field_dive *field, struct gen_random *random)
{
    plant_to_surface(field, random);
    field->mishap.rush.rate_m_min = 36;
}

/* [m/min] the way from a depth to the last metre before the surface, as it was swum. */
static double swum_m_min(const struct gen_made *made, double from_m)
{
    const double head_m = 1; /* of a head that bobs at the surface, and no deeper */
    double to_s = made->lived->mark.from_s, last_s = (double)made->lived->course.count - 1;
    while (to_s < last_s && depth_at(made, to_s) > head_m) {
        to_s++;
    }
    double from_s = to_s;
    while (from_s > 0 && depth_at(made, from_s) < from_m) {
        from_s--;
    }
    return 60 * (depth_at(made, from_s) - depth_at(made, to_s)) / (to_s - from_s);
}

/* As it was swum, over 3 m or more: a line through 20 s makes 24 m/min of 36. It takes 10 s, of which a recorder with a
 * sample every 10 s may show as little as half the rate. */
static bool tell_blown(struct gen_line *line, struct gen_made *made)
{
    bool found = tell_rush(line, made);
    line->severity = "serious";
    line->value = found ? fmax(swum_m_min(made, 6), swum_m_min(made, 4)) : 0;
    const struct gen_recorder *recorder = &made->field->recorder;
    line->tolerance = line->value * fmin(0.6, fmax(0.15, 0.08 * (recorder->interval_s + recorder->jitter_s)));
    return found;
}

/* ---- stops */

static void plant_cut(struct gen_field_dive *field, struct gen_random *random)
{
    double left_s = floor(between(random, 120, 500));
    field->mishap.cut.left_s = left_s;
    field->mishap.cut.least_s = left_s + 60;
}

static bool tell_cut(struct gen_line *line, struct gen_made *made)
{
    const struct gen_mark *mark = &made->lived->mark;
    if (isnan(mark->from_s) || mark->value < 1.5 || made->lived->owed_min > 0) {
        return false;
    }
    struct worst worst = worst_from(made, mark->to_s);
    stretch_set(line, made, mark->from_s, fmax(mark->to_s + 30, worst.last_over_s));
    line->kind = "stop-cut-short";
    line->also = "ceiling-exceeded m-value-exceeded";
    line->unit = "min";
    line->value = mark->value;
    line->tolerance = fmax(0.8, 0.25 * mark->value);
    bool long_one = mark->value > 5.5, short_one = mark->value < 4.5 && worst.over_points < 4.5;
    line->severity = long_one ? "serious" : short_one ? "caution" : "caution serious";
    return true;
}

static void plant_missed(struct gen_field_dive *field, struct gen_random *random)
{
    (void)random;
    field->mishap.cut.left_s = 1e9;
    field->mishap.cut.least_s = 180;
}

static void plant_owing(struct gen_field_dive *field, double left_s)
{
    field->mishap.cut.left_s = left_s;
    field->mishap.cut.least_s = left_s + 10;
    field->mishap.cut.last = true;
    field->dive.last_m_min = 5;
}

static void plant_owing_little(struct gen_field_dive *field, struct gen_random *random)
{
    plant_owing(field, floor(between(random, 85, 110)));
    field->recorder.interval_s = fmin(5, field->recorder.interval_s);
    field->recorder.jitter_s = 0;
    field->nature.bob_s = 0;
}

static void plant_owing_some(struct gen_field_dive *field, struct gen_random *random)
{
    plant_owing(field, floor(between(random, 180, 220)));
}

static void plant_owing_much(struct gen_field_dive *field, struct gen_random *random)
{
    plant_owing(field, floor(between(random, 480, 900)));
}

static bool tell_owing(struct gen_line *line, struct gen_made *made)
{
    const struct gen_mark *mark = &made->lived->mark;
    double owed_min = made->lived->owed_min;
    if (isnan(mark->from_s) || owed_min < 0.45) {
        return false;
    }
    struct worst worst = worst_from(made, fmax(mark->to_s, made->lived->surfaced_s - 60));
    stretch_set(line, made, mark->from_s, fmax(made->lived->surfaced_s + 60, worst.last_over_s));
    line->kind = "surfaced-owing-stops";
    line->also = "stop-cut-short ceiling-exceeded m-value-exceeded";
    line->unit = "min";
    line->value = owed_min;
    line->tolerance = fmax(0.5, 0.2 * owed_min);
    line->severity = worst.over_points > 4.5 && owed_min < 4.6 ? "note caution serious"
                     : owed_min < 0.8                          ? "note"
                     : owed_min < 1.2                          ? "note caution"
                     : owed_min < 4.6                          ? "caution"
                     : owed_min < 5.4                          ? "caution serious"
                                                               : "serious";
    return true;
}

static void plant_swim(struct gen_field_dive *field, struct gen_random *random)
{
    plant_owing_some(field, random);
    field->nature.bob_s = floor(between(random, 180, 300));
    field->nature.bob_m = 0.2;
    field->nature.head_m = 0.9;
    field->with_flat = true;
}

static void plant_rise(struct gen_field_dive *field, struct gen_random *random)
{
    field->mishap.rise.by_m = between(random, 1.2, 3.2);
    field->mishap.rise.for_s = floor(between(random, 45, 200));
}

static bool tell_rise(struct gen_line *line, struct gen_made *made)
{
    const struct gen_mark *mark = &made->lived->mark;
    if (isnan(mark->from_s)) {
        return false;
    }
    struct worst worst = worst_from(made, mark->from_s);
    stretch_set(line, made, mark->from_s, mark->to_s);
    line->kind = "ceiling-exceeded";
    line->also = "stop-cut-short m-value-exceeded";
    line->unit = "m";
    line->value = worst.over_m;
    line->tolerance = fmax(0.3, 0.15 * worst.over_m);
    line->severity = ceiling_severity(&worst);
    return worst.over_m > 0.3;
}

/* ---- oxygen */

static void plant_low_loop(struct gen_field_dive *field, struct gen_random *random)
{
    (void)random;
    field->mishap.astray.by_bar = -0.3;
    field->mishap.astray.for_s = 600;
}

static void plant_high_loop(struct gen_field_dive *field, struct gen_random *random)
{
    (void)random;
    field->dive.setpoints[1].bar = field->dive.setpoints[2].bar = 1.1;
    field->dive.setpoint_count = 2;
    field->mishap.astray.by_bar = 0.3;
    field->mishap.astray.for_s = 600;
    field->mishap.astray.ascending = true;
}

static bool tell_astray(struct gen_line *line, struct gen_made *made)
{
    const struct gen_mark *mark = &made->lived->mark;
    if (isnan(mark->from_s)) {
        return false;
    }
    stretch_set(line, made, mark->from_s, mark->to_s);
    line->kind = "setpoint-not-held";
    line->unit = "bar";
    line->value = made->field->dive.setpoints[1].bar + mark->value;
    line->tolerance = 0.08;
    line->severity = mark->value < 0 ? "caution" : "note";
    return true;
}

/* The stretch of the dive with a PO2 above (or below) a limit, from a second on. */
static bool po2_stretch(struct gen_line *line, struct gen_made *made, double limit_bar, double sign)
{
    const struct gen_lived *lived = made->lived;
    double from_s = (double)NAN, to_s = 0, worst_bar = limit_bar;
    for (size_t i = 0; i < lived->course.count; i++) {
        double po2_bar = lived->seconds[i].po2_bar;
        if (sign * (po2_bar - limit_bar) > 0 && lived->course.depth_m[i] > 0.5) {
            from_s = isnan(from_s) ? (double)i : from_s;
            to_s = (double)i;
            worst_bar = sign > 0 ? fmax(worst_bar, po2_bar) : fmin(worst_bar, po2_bar);
        }
    }
    stretch_set(line, made, from_s, to_s);
    line->unit = "bar";
    line->value = worst_bar;
    return !isnan(from_s);
}

static void plant_mix_deep(struct gen_field_dive *field, struct gen_random *random)
{
    for (int i = 0; i < field->dive.deco_count; i++) {
        if (field->dive.deco[i].mix.o2_frac == 0.5) {
            field->dive.deco[i].depth_m = 3 * floor(between(random, 10, 12));
        }
    }
}

static bool tell_mix_deep(struct gen_line *line, struct gen_made *made)
{
    line->kind = "oxygen-high";
    line->also = "mix-too-deep";
    line->tolerance = 0.08;
    line->severity = "serious";
    return po2_stretch(line, made, 1.75, 1);
}

static void plant_hypoxic(struct gen_field_dive *field, struct gen_random *random)
{
    (void)random;
    field->mishap.no_travel = true;
    field->dive.mix = (struct plm_mix){0.10, 0.65, 0.25};
}

static bool tell_hypoxic(struct gen_line *line, struct gen_made *made)
{
    line->kind = "oxygen-low";
    line->tolerance = 0.03;
    line->severity = "serious";
    return po2_stretch(line, made, 0.18, -1);
}

/* ---- down again, off the loop, against the plan */

static void plant_again(struct gen_field_dive *field, struct gen_random *random)
{
    field->mishap.again.down_m = floor(between(random, 8, 14));
    field->mishap.again.for_s = floor(between(random, 120, 300));
    field->dive.safety.for_s = 0;
}

/* Does the model ask for any stop on the dive? */
static bool stops_needed(const struct gen_made *made)
{
    for (size_t i = 0; i < made->lived->course.count; i++) {
        if (made->lived->seconds[i].ceiling_m > 0.01) {
            return true;
        }
    }
    return false;
}

static bool tell_again(struct gen_line *line, struct gen_made *made)
{
    const struct gen_mark *mark = &made->lived->mark;
    if (isnan(mark->from_s)) {
        return false;
    }
    stretch_set(line, made, mark->from_s, mark->to_s);
    line->kind = "descended-again";
    line->unit = "m";
    line->value = mark->value;
    line->tolerance = 1.2;
    bool stops = made->field->kind != GEN_KIND_NITROX;
    bool needed = stops_needed(made);
    line->severity = stops && needed ? "caution" : needed ? "note caution" : "note";
    return true;
}

static bool tell_left(struct gen_line *line, struct gen_made *made)
{
    double left_s = made->lived->left_loop_s;
    stretch_set(line, made, left_s, left_s + 30);
    line->kind = "left-loop";
    line->unit = "m";
    line->value = depth_at(made, left_s);
    line->tolerance = 2;
    line->severity = "note";
    return !isnan(left_s);
}

static void plant_plan_deeper(struct gen_field_dive *field, struct gen_random *random)
{
    field->with_plan = true;
    field->plan = field->dive;
    double less_m = floor(between(random, 3, 9));
    for (int i = 0; i < field->plan.level_count; i++) {
        field->plan.levels[i].depth_m -= less_m;
    }
}

/* As the recorder has it. */
static double deepest_m(const struct gen_record *record)
{
    double deepest = 0;
    for (size_t i = 0; i < record->count; i++) {
        deepest = fmax(deepest, record->samples[i].depth_m);
    }
    return deepest;
}

static bool tell_plan_deeper(struct gen_line *line, struct gen_made *made)
{
    double planned_m = made->field->plan.levels[0].depth_m, deepest = deepest_m(made->record);
    stretch_set(line, made, made->lived->bottom_begin_s, made->lived->bottom_end_s);
    line->kind = "plan-deeper";
    line->also = "plan-stop plan-rate plan-longer";
    line->unit = "m";
    line->value = deepest;
    line->tolerance = 0.5;
    double share = deepest / planned_m - 1;
    line->severity = share > 0.105 ? "serious" : share > 0.095 ? "caution serious" : "caution";
    return true;
}

static void plant_plan_longer(struct gen_field_dive *field, struct gen_random *random)
{
    field->with_plan = true;
    field->plan = field->dive;
    double less_s = floor(between(random, 120, 480));
    for (int i = 0; i < field->plan.level_count; i++) {
        field->plan.levels[i].until_s -= less_s * (i + 1) / field->plan.level_count;
    }
}

static bool tell_plan_longer(struct gen_line *line, struct gen_made *made)
{
    int last = made->field->plan.level_count - 1;
    double longer_s = made->field->dive.levels[last].until_s - made->field->plan.levels[last].until_s;
    double end_s = made->lived->bottom_end_s;
    stretch_set(line, made, end_s - longer_s, end_s);
    line->kind = "plan-longer";
    line->also = "plan-stop plan-rate plan-deeper";
    line->unit = "min";
    line->value = (end_s - made->lived->descent_s) / 60;
    line->tolerance = 1;
    line->severity = longer_s > 375 ? "serious" : longer_s < 240 ? "caution" : "caution serious";
    return true;
}

static void plant_plan_mix(struct gen_field_dive *field, struct gen_random *random)
{
    (void)random;
    field->with_plan = true;
    field->plan = field->dive;
    field->plan.mix.o2_frac -= 0.03;
    field->plan.mix.he_frac += 0.10;
    field->plan.mix.n2_frac = 1 - field->plan.mix.o2_frac - field->plan.mix.he_frac;
}

static bool tell_plan_mix(struct gen_line *line, struct gen_made *made)
{
    stretch_set(line, made, made->lived->bottom_begin_s, made->lived->bottom_end_s);
    line->kind = "plan-mix";
    line->also = "plan-stop plan-rate";
    line->unit = "";
    line->value = made->field->dive.mix.o2_frac;
    line->tolerance = 0.011;
    line->severity = "caution";
    return true;
}

#define OPEN  (BIT(OPEN_TWO) | BIT(OPEN_THREE))
#define STOPS (OPEN | BIT(LOOP) | BIT(NITROX_STOPS))

const struct gen_fault gen_faults[] = {
    {"fast-deep", OPEN | BIT(LOOP), plant_deep, tell_deep, false, false},
    {"fast-past-stops", BIT(LOOP), plant_runaway, tell_runaway, false, true},
    {"fast-between-stops", OPEN, plant_between, tell_between, false, false},
    {"brisk-between-stops", STOPS, plant_shallow_between, tell_shallow_between, false, false},
    {"brisk-to-surface", STOPS | BIT(NITROX), plant_to_surface, tell_to_surface, false, false},
    {"fast-to-surface", STOPS | BIT(NITROX), plant_blown, tell_blown, false, false},
    {"stop-cut", STOPS, plant_cut, tell_cut, false, true},
    {"stop-missed", OPEN | BIT(LOOP), plant_missed, tell_cut, false, true},
    {"ceiling-broken", OPEN | BIT(LOOP), plant_rise, tell_rise, false, true},
    {"surfaced-owing-little", OPEN | BIT(NITROX_STOPS), plant_owing_little, tell_owing, false, true},
    {"surfaced-owing-some", STOPS, plant_owing_some, tell_owing, false, true},
    {"surfaced-owing-much", OPEN | BIT(LOOP), plant_owing_much, tell_owing, false, true},
    {"swim-after-cut", STOPS, plant_swim, tell_owing, false, true},
    {"loop-low", BIT(LOOP), plant_low_loop, tell_astray, false, true},
    {"loop-high", BIT(LOOP), plant_high_loop, tell_astray, false, true},
    {"mix-too-deep", OPEN, plant_mix_deep, tell_mix_deep, false, false},
    {"hypoxic-at-surface", BIT(OPEN_THREE), plant_hypoxic, tell_hypoxic, false, false},
    {"down-again", STOPS | BIT(NITROX), plant_again, tell_again, false, false},
    {"loop-left", BIT(BAILOUT), NULL, tell_left, false, false},
    {"plan-deeper", STOPS, plant_plan_deeper, tell_plan_deeper, false, false},
    {"plan-longer", STOPS, plant_plan_longer, tell_plan_longer, false, false},
    {"plan-mix", OPEN | BIT(LOOP), plant_plan_mix, tell_plan_mix, false, false},
    {"cell-stuck", BIT(LOOP), NULL, gen_spoil_stuck, true, true},
    {"cell-limited", BIT(LOOP), NULL, gen_spoil_limited, true, true},
    {"cell-off", BIT(LOOP), NULL, gen_spoil_off, true, true},
    {"gap-short", STOPS | BIT(NITROX), gen_plant_clocked, gen_spoil_gap_short, true, false},
    {"gap-long", STOPS, gen_plant_clocked, gen_spoil_gap_long, true, false},
    {"spike-away", STOPS | BIT(NITROX), gen_plant_clocked, gen_spoil_spike, true, false},
    {"spike-two", STOPS | BIT(NITROX), gen_plant_clocked, gen_spoil_two, true, false},
    {"spike-zero", STOPS | BIT(NITROX), gen_plant_clocked, gen_spoil_zero, true, false},
    {"spike-6553.5", STOPS | BIT(NITROX), gen_plant_clocked, gen_spoil_overflow, true, false},
    {"spike-negative", STOPS | BIT(NITROX), gen_plant_clocked, gen_spoil_negative, true, false},
    {"clock-off", STOPS, gen_plant_clock, gen_spoil_clock, false, false},
};
const int gen_fault_count = sizeof gen_faults / sizeof *gen_faults;
