/*
 * Random dives, and what is breathed in them by definition: every moment asked for itself, nothing carried along.
 * SPDX-License-Identifier: MIT
 */
#include "ref/replay/scenario.h"

#include <math.h>
#include <plimsoll/dive_builder.h>

#include "support/made_dive.h"
#include "support/random.h"

static const double nan_value = (double)NAN;

static void breathe_anew(struct scenario_sample *sample, struct seeded *state)
{
    static const double mixes[][2] = {{0.21, 0}, {0.32, 0}, {0.18, 0.45}, {0.10, 0.70},
                                      {0.5, 0},  {1, 0},    {0.2, 0.8},   {0.05, 0.95}};
    int mix = (int)(seeded_uniform(state) * 8.0);
    double kind = seeded_uniform(state);
    sample->mode = kind < 0.4 ? PLM_MODE_OPEN : kind < 0.9 ? PLM_MODE_CLOSED : PLM_MODE_SEMICLOSED;
    sample->o2_frac = mixes[mix][0];
    sample->he_frac = mixes[mix][1];
    if (seeded_uniform(state) < 0.3) {
        sample->setpoint_bar = seeded_uniform(state) < 0.3 ? nan_value : seeded_between(state, 0.4, 1.7);
    }
}

static void measure(struct scenario_sample *sample, struct seeded *state)
{
    for (int c = 0; c < 3; c++) {
        sample->cell_bar[c] = nan_value;
    }
    sample->logged_bar = nan_value;
    double kind = seeded_uniform(state), middle_bar = seeded_between(state, 0.3, 1.8);
    if (kind < 0.35) {
        for (int c = 0; c < 3; c++) {
            /* Rounded to hundredths as cells are; one may be far off or silent. */
            double off_bar =
                seeded_uniform(state) < 0.2 ? seeded_between(state, 0.3, 0.8) : seeded_between(state, -0.05, 0.05);
            sample->cell_bar[c] =
                seeded_uniform(state) < 0.1 ? nan_value : round((middle_bar + off_bar) * 100.0) / 100.0;
        }
    } else if (kind < 0.55) {
        sample->logged_bar = middle_bar;
    }
}

void scenario_make(struct scenario *scenario, uint64_t seed)
{
    struct seeded state = {seed * 1000003u + 17u};
    scenario->seed = seed;
    scenario->surface_bar = seeded_uniform(&state) < 0.5 ? 1.01325 : seeded_between(&state, 0.6, 1.05);
    scenario->water_kg_m3 = seeded_uniform(&state) < 0.5 ? 1019.7162 : seeded_between(&state, 998.0, 1030.0);
    scenario->vapour_bar = 0.0627;
    scenario->oxygen_rule = (int)(seeded_uniform(&state) * 3.0);
    scenario->count = 8 + (int)(seeded_uniform(&state) * 30.0);
    double deepest_m = seeded_between(&state, 5.0, 150.0);
    struct scenario_sample now = {.setpoint_bar = nan_value, .mode = PLM_MODE_OPEN, .o2_frac = 0.21};
    for (int i = 0; i < scenario->count; i++) {
        double kind = seeded_uniform(&state), was_m = now.depth_m;
        bool step = i > 1 && kind < 0.08;
        if (i > 0) {
            now.time_s +=
                step ? 0.0 : round(kind < 0.5 ? seeded_between(&state, 1, 90) : seeded_between(&state, 90, 1200));
        }
        if (seeded_uniform(&state) < 0.7) {
            double place = seeded_uniform(&state);
            now.depth_m = i == 0 || place < 0.1 ? 0.0
                          : place < 0.4         ? seeded_between(&state, 0, 8)
                                                : seeded_between(&state, 0, deepest_m);
        }
        if (step && now.depth_m == was_m) {
            now.depth_m = was_m + 0.5; /* samples of one moment and depth are one */
        }
        if (i == 0 || seeded_uniform(&state) < 0.3) {
            breathe_anew(&now, &state);
        }
        measure(&now, &state);
        scenario->samples[i] = now;
    }
    scenario->samples[1].depth_m = deepest_m;
}

struct plm_rules scenario_rules(const struct scenario *scenario)
{
    struct plm_rules rules = plm_rules_default();
    rules.oxygen = scenario->oxygen_rule;
    rules.water_kg_m3 = scenario->water_kg_m3;
    return rules;
}

struct plm_dive *scenario_dive(const struct scenario *scenario)
{
    struct made_dive made = made_start(scenario->surface_bar);
    for (int i = 0; i < scenario->count; i++) {
        const struct scenario_sample *from = &scenario->samples[i];
        if (from->mode == PLM_MODE_CLOSED) {
            made_loop(&made, from->o2_frac, from->he_frac, from->setpoint_bar);
        } else if (from->mode == PLM_MODE_OPEN) {
            made_open(&made, from->o2_frac, from->he_frac);
        } else {
            made_semiclosed(&made, from->o2_frac, from->he_frac);
        }
        struct plm_sample sample = made_blank(from->time_s, from->depth_m);
        sample.po2_bar = from->logged_bar;
        for (int c = 0; c < 3; c++) {
            sample.cell_bar[c] = from->cell_bar[c];
        }
        made_add(&made, &sample);
    }
    return made_finish(&made);
}

static double share_of(const struct scenario *scenario, int a, int b, double t_s)
{
    double from_s = scenario->samples[a].time_s, to_s = scenario->samples[b].time_s;
    return to_s > from_s ? (t_s - from_s) / (to_s - from_s) : 0.0;
}

double scenario_ambient_bar(const struct scenario *scenario, int leg, double t_s)
{
    double from_m = scenario->samples[leg].depth_m, to_m = scenario->samples[leg + 1].depth_m;
    double depth_m = from_m + (to_m - from_m) * share_of(scenario, leg, leg + 1, t_s);
    return scenario->surface_bar + depth_m * scenario->water_kg_m3 * 9.80665 / 1e5;
}

/* Median of three cells, some of them dead; by counting, not by sorting. */
static double median_of(const double *cells)
{
    double sum = 0.0, low = INFINITY, high = -INFINITY;
    int count = 0;
    for (int c = 0; c < 3; c++) {
        if (cells[c] >= 0.05) {
            sum += cells[c];
            low = fmin(low, cells[c]);
            high = fmax(high, cells[c]);
            count++;
        }
    }
    return count == 3 ? sum - low - high : count > 0 ? sum / count : nan_value;
}

static double measured_at(const struct scenario_sample *sample)
{
    double median_bar = median_of(sample->cell_bar);
    return isnan(median_bar) ? sample->logged_bar : median_bar;
}

/* The nearest sample with a measurement on the same stretch of loop, from `from` on in steps of `step`; -1 none. */
static int known_near(const struct scenario *scenario, int from, int step)
{
    for (int i = from; i >= 0 && i < scenario->count && scenario->samples[i].mode != PLM_MODE_OPEN; i += step) {
        if (!isnan(measured_at(&scenario->samples[i]))) {
            return i;
        }
    }
    return -1;
}

double scenario_loop_bar(const struct scenario *scenario, int leg, double t_s)
{
    const struct scenario_sample *sample = &scenario->samples[leg];
    if (sample->mode == PLM_MODE_OPEN) {
        return nan_value;
    }
    double setpoint_bar = sample->mode == PLM_MODE_CLOSED ? sample->setpoint_bar : nan_value;
    int before = known_near(scenario, leg, -1), after = known_near(scenario, leg + 1, 1);
    bool setpoint = !isnan(setpoint_bar);
    if (setpoint && scenario->oxygen_rule == 2) {
        return setpoint_bar;
    }
    if (before >= 0 && after >= 0) {
        double from_bar = measured_at(&scenario->samples[before]), to_bar = measured_at(&scenario->samples[after]);
        return from_bar + (to_bar - from_bar) * share_of(scenario, before, after, t_s);
    }
    /* Only on one side: at a sample that has its own, it is held over its leg; else the set point, if one may speak. */
    if (before != leg && setpoint && scenario->oxygen_rule == 0) {
        return setpoint_bar;
    }
    if (before >= 0 || after >= 0) {
        return measured_at(&scenario->samples[before >= 0 ? before : after]);
    }
    return setpoint_bar;
}

struct scenario_breath scenario_breathe(const struct scenario *scenario, int leg, double t_s)
{
    const struct scenario_sample *sample = &scenario->samples[leg];
    double ambient_bar = scenario_ambient_bar(scenario, leg, t_s);
    double loop_bar = scenario_loop_bar(scenario, leg, t_s);
    double n2_frac = 1.0 - sample->o2_frac - sample->he_frac;
    struct scenario_breath breath;
    /* plimsoll-model(7): a loop whose diluent is pure oxygen holds oxygen alone */
    if (isnan(loop_bar) || !(sample->o2_frac < 1.0)) {
        breath.n2_bar = (ambient_bar - scenario->vapour_bar) * n2_frac;
        breath.he_bar = (ambient_bar - scenario->vapour_bar) * sample->he_frac;
        breath.o2_bar = ambient_bar * sample->o2_frac;
        return breath;
    }
    breath.o2_bar = fmin(loop_bar, ambient_bar);
    double inert_bar = fmax(0.0, ambient_bar - scenario->vapour_bar - breath.o2_bar);
    double helium_share = sample->he_frac / (1.0 - sample->o2_frac);
    breath.n2_bar = inert_bar * (1.0 - helium_share);
    breath.he_bar = inert_bar * helium_share;
    return breath;
}

static double over(const struct scenario *scenario, int leg, double t_s, double off_bar)
{
    return scenario_ambient_bar(scenario, leg, t_s) - scenario_loop_bar(scenario, leg, t_s) - off_bar;
}

int scenario_kinks(const struct scenario *scenario, int leg, double kinks_s[4])
{
    double from_s = scenario->samples[leg].time_s, to_s = scenario->samples[leg + 1].time_s;
    const double offs_bar[2] = {0.0, scenario->vapour_bar};
    int count = 0;
    for (int k = 0; k < 2; k++) {
        double low_s = from_s, high_s = to_s, at_low = over(scenario, leg, from_s, offs_bar[k]);
        if (!(at_low * over(scenario, leg, to_s, offs_bar[k]) < 0.0)) {
            continue;
        }
        for (int round = 0; round < 200; round++) {
            double middle_s = 0.5 * (low_s + high_s);
            if (at_low * over(scenario, leg, middle_s, offs_bar[k]) > 0.0) {
                low_s = middle_s;
            } else {
                high_s = middle_s;
            }
        }
        kinks_s[count++] = 0.5 * (low_s + high_s);
    }
    if (count == 2 && kinks_s[0] > kinks_s[1]) {
        double swapped = kinks_s[0];
        kinks_s[0] = kinks_s[1];
        kinks_s[1] = swapped;
    }
    return count;
}
