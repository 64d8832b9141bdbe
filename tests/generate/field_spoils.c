/*
 * What recorders do to a log: cells, gaps, samples that cannot be, clocks. Changes a record, never a dive.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <string.h>

#include "generate/field_faults.h"

static struct gen_random random_of(const struct gen_made *made, const char *what)
{
    return gen_random_named(made->seed + gen_random_named(0, made->field->dive.name).state, what);
}

static bool is_loop(const struct gen_made *made, size_t i)
{
    const struct gen_record *record = made->record;
    return record->events[record->samples[i].event].mode == PLM_MODE_CLOSED;
}

/* ---- cells */

static double spread_bar(const struct gen_sample *sample)
{
    const double *cell = sample->cell_bar;
    double high = fmax(fmax(cell[0], cell[1]), cell[2]), low = fmin(fmin(cell[0], cell[1]), cell[2]);
    return high - low;
}

/* Where the cells are further apart than 0.2 bar after one of them was changed. */
static bool cells_tell(struct gen_line *line, const struct gen_made *made)
{
    const struct gen_record *record = made->record;
    double first_s = (double)NAN, last_s = 0, widest_bar = 0;
    for (size_t i = 0; i < record->count; i++) {
        double bar = spread_bar(&record->samples[i]);
        if (bar > 0.2 && is_loop(made, i)) {
            first_s = isnan(first_s) ? record->samples[i].time_s : first_s;
            last_s = record->samples[i].time_s;
            widest_bar = fmax(widest_bar, bar);
        }
    }
    line->from_s = first_s;
    line->to_s = last_s;
    line->kind = "cells-disagree";
    line->unit = "bar";
    line->value = widest_bar;
    line->tolerance = 0.03;
    line->severity = "caution";
    return !isnan(first_s) && last_s - first_s > 120;
}

/* The cell stays at what it read 2 min into the dive. */
bool gen_spoil_stuck(struct gen_line *line, struct gen_made *made)
{
    struct gen_record *record = made->record;
    double stuck_bar = (double)NAN;
    for (size_t i = 0; i < record->count; i++) {
        if (record->samples[i].time_s >= 60 && isnan(stuck_bar)) {
            stuck_bar = record->samples[i].cell_bar[1];
        }
        if (!isnan(stuck_bar)) {
            record->samples[i].cell_bar[1] = stuck_bar;
        }
    }
    return cells_tell(line, made);
}

/* The cell gives no more than what 1.02 bar give. */
bool gen_spoil_limited(struct gen_line *line, struct gen_made *made)
{
    for (size_t i = 0; i < made->record->count; i++) {
        double *bar = &made->record->samples[i].cell_bar[2];
        *bar = fmin(*bar, 1.02);
    }
    return cells_tell(line, made);
}

bool gen_spoil_off(struct gen_line *line, struct gen_made *made)
{
    for (size_t i = 0; i < made->record->count; i++) {
        double *bar = &made->record->samples[i].cell_bar[0];
        *bar = floor(*bar * 0.7 * 100 + 0.5) / 100;
    }
    return cells_tell(line, made);
}

/* ---- samples that are not there, or cannot be */

/* A sample of the bottom, two minutes or more away from the other fault, with for_s of bottom behind it. */
static bool place_find(const struct gen_made *made, const char *what, double for_s, size_t *place)
{
    const struct gen_record *record = made->record;
    struct gen_random random = random_of(made, what);
    double begin_s = made->lived->bottom_begin_s - record->begin_s + 30;
    double end_s = made->lived->bottom_end_s - record->begin_s - for_s - 30;
    if (end_s <= begin_s) {
        return false;
    }
    for (int tries = 0; tries < 50; tries++) {
        double at_s = gen_random_between(&random, begin_s, end_s);
        bool near = at_s + for_s + 120 > made->busy_from_s && at_s < made->busy_to_s + 120;
        size_t i = 0;
        while (i < record->count && record->samples[i].time_s < at_s) {
            i++;
        }
        if (!near && i > 2 && i + 3 < record->count && !record->samples[i].changed) {
            *place = i;
            return true;
        }
    }
    return false;
}

static void sample_remove(struct gen_record *record, size_t i)
{
    memmove(&record->samples[i], &record->samples[i + 1], (record->count - i - 1) * sizeof *record->samples);
    record->count--;
}

void gen_plant_clocked(struct gen_field_dive *field, struct gen_random *random)
{
    (void)random;
    field->recorder.jitter_s = fmin(1, field->recorder.jitter_s);
}

static bool gap(struct gen_line *line, struct gen_made *made, double low_s, double high_s)
{
    struct gen_record *record = made->record;
    struct gen_random random = random_of(made, "gap");
    double for_s = floor(gen_random_between(&random, low_s, high_s));
    size_t at = 0;
    if (!place_find(made, "gap place", for_s, &at)) {
        return false;
    }
    double until_s = record->samples[at].time_s + for_s;
    while (at < record->count && record->samples[at].time_s < until_s && !record->samples[at].changed) {
        sample_remove(record, at);
    }
    line->from_s = record->samples[at - 1].time_s;
    line->to_s = record->samples[at].time_s;
    line->kind = "log-gap";
    line->unit = "s";
    line->value = line->to_s - line->from_s;
    line->tolerance = 1;
    line->severity = line->value > 300 ? "caution" : "note";
    return line->value > 90;
}

bool gen_spoil_gap_short(struct gen_line *line, struct gen_made *made)
{
    return gap(line, made, 120, 260);
}

bool gen_spoil_gap_long(struct gen_line *line, struct gen_made *made)
{
    return gap(line, made, 330, 480);
}

/* So many samples at a depth where the diver never was. No finding is due to them. */
static bool lie(struct gen_line *line, struct gen_made *made, double depth_m, size_t count)
{
    size_t at = 0;
    if (!place_find(made, "lie", 0, &at) || at + count >= made->record->count) {
        return false;
    }
    struct gen_sample *samples = made->record->samples;
    const struct gen_sample *before = &samples[at - 1], *after = &samples[at + count];
    double slow_s = fmax(samples[at].time_s - before->time_s, after->time_s - samples[at + count - 1].time_s);
    double way_m = fmin(fabs(depth_m - before->depth_m), fabs(depth_m - after->depth_m));
    if (way_m / slow_s * 60 < 95) {
        return false;
    }
    for (size_t i = at; i < at + count; i++) {
        samples[i].depth_m = depth_m;
    }
    line->from_s = before->time_s;
    line->to_s = after->time_s;
    line->kind = "";
    line->unit = "m";
    line->value = depth_m;
    line->tolerance = 0.05;
    line->severity = "";
    return true;
}

static double away_m(const struct gen_made *made)
{
    return made->field->dive.levels[0].depth_m + 20 + 2 * made->record->recorder->interval_s;
}

/* Away and back faster than anybody moves: more than 90 m/min both ways. */
bool gen_spoil_spike(struct gen_line *line, struct gen_made *made)
{
    return lie(line, made, away_m(made), 1);
}

bool gen_spoil_two(struct gen_line *line, struct gen_made *made)
{
    return lie(line, made, away_m(made), 2);
}

bool gen_spoil_zero(struct gen_line *line, struct gen_made *made)
{
    return lie(line, made, 0, 1);
}

bool gen_spoil_overflow(struct gen_line *line, struct gen_made *made)
{
    return lie(line, made, 6553.5, 1);
}

bool gen_spoil_negative(struct gen_line *line, struct gen_made *made)
{
    return lie(line, made, -50, 1);
}

/* ---- clocks */

void gen_plant_clock(struct gen_field_dive *field, struct gen_random *random)
{
    static const double offs_s[] = {3600, -3600, 7200, 900, -2700};
    field->with_second = true;
    field->second_off_s = offs_s[(int)gen_random_between(random, 0, 5)];
}

bool gen_spoil_clock(struct gen_line *line, struct gen_made *made)
{
    line->from_s = 0;
    line->to_s = made->record->samples[made->record->count - 1].time_s;
    line->kind = "clock-doubt";
    line->unit = "s";
    line->value = -made->field->second_off_s; /* to be added to the second's clock */
    line->tolerance = 0.5;
    line->severity = "note";
    return true;
}
