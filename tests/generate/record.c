/*
 * Sees a course through a recorder's errors. Must not change the course, nor write anything.
 * SPDX-License-Identifier: MIT
 */
#include "generate/record.h"

#include <math.h>
#include <stdlib.h>

#include "generate/random.h"

static const double cell_step_bar = 0.01;
static const double temp_lag_s = 45, temp_step_c = 0.1;
static const double halfway_m = 35; /* the water is half way to its deep temperature here */

static double rounded(double value, double step)
{
    return floor(value / step + 0.5) * step;
}

/* The course between its seconds. */
static double between(const double *values, size_t count, double time_s)
{
    double whole = floor(time_s);
    if (whole < 0) {
        return values[0];
    }
    if (whole + 1 >= (double)count) {
        return values[count - 1];
    }
    size_t i = (size_t)whole;
    return values[i] + (values[i + 1] - values[i]) * (time_s - whole);
}

static double water_c(const struct gen_dive *dive, double depth_m)
{
    double share = depth_m * depth_m / (depth_m * depth_m + halfway_m * halfway_m);
    return dive->surface_c + (dive->deep_c - dive->surface_c) * share;
}

static bool in_gap(const struct gen_log *log, double time_s)
{
    for (int i = 0; log != NULL && i < log->gap_count; i++) {
        if (time_s > log->gaps[i].from_s && time_s < log->gaps[i].to_s) {
            return true;
        }
    }
    return false;
}

/* What the recorder knows of what is breathed: set points may be entered late. */
static void events_take(struct gen_record *record, const struct gen_course *course)
{
    for (int i = 0; i < course->event_count; i++) {
        record->events[i] = course->events[i];
        bool same_mode = i > 0 && course->events[i].mode == course->events[i - 1].mode;
        if (same_mode && course->events[i].mode == PLM_MODE_CLOSED) {
            record->events[i].time_s += record->recorder->late_s;
        }
    }
}

/* Index of the last event up to a time. */
static int event_at(const struct gen_record *record, int count, double time_s)
{
    int at = 0;
    for (int i = 1; i < count; i++) {
        if (record->events[i].time_s <= time_s) {
            at = i;
        }
    }
    return at;
}

/* The slow sensors, as they stand between samples. */
struct senses {
    double cell_bar[GEN_CELLS], temp_c, seen_s;
};

static void senses_follow(struct senses *senses, const struct gen_record *record, const struct gen_course *course,
                          double to_s)
{
    const struct gen_recorder *recorder = record->recorder;
    for (; senses->seen_s + 1 <= to_s; senses->seen_s++) {
        double loop_bar = between(course->loop_bar, course->count, senses->seen_s);
        double depth_m = between(course->depth_m, course->count, senses->seen_s);
        for (int i = 0; i < recorder->cells; i++) {
            senses->cell_bar[i] += (loop_bar - senses->cell_bar[i]) / recorder->cell_lag_s[i];
        }
        senses->temp_c += (water_c(record->dive, depth_m) - senses->temp_c) / temp_lag_s;
    }
}

static void sample_take(struct gen_sample *sample, const struct gen_record *record, const struct gen_course *course,
                        const struct senses *senses, struct gen_random *random, double true_s)
{
    const struct gen_recorder *recorder = record->recorder;
    double depth_m = between(course->depth_m, course->count, true_s);
    if (depth_m > 0) {
        depth_m =
            depth_m * recorder->depth_scale + recorder->depth_offset_m + recorder->noise_m * gen_random_normal(random);
    }
    sample->depth_m = fmax(0, rounded(depth_m, recorder->step_m));
    sample->temp_c = rounded(senses->temp_c + 0.02 * gen_random_normal(random), temp_step_c);
    for (int i = 0; i < GEN_CELLS; i++) {
        double cell_bar =
            senses->cell_bar[i] * recorder->cell_gain[i] + recorder->cell_noise_bar * gen_random_normal(random);
        sample->cell_bar[i] = i < recorder->cells ? rounded(cell_bar, cell_step_bar) : (double)NAN;
    }
}

/* A recorder with jitter never waits a part of a second. */
static double interval_next_s(const struct gen_recorder *recorder, struct gen_random *random)
{
    if (recorder->jitter_s <= 0) {
        return recorder->interval_s;
    }
    double off_s = gen_random_between(random, -recorder->jitter_s, recorder->jitter_s);
    return fmax(1, floor(recorder->interval_s + off_s + 0.5));
}

/* A recorder that writes changes alone keeps silent while there are none. */
static bool is_told(const struct gen_record *record, const struct gen_sample *sample, int event)
{
    double change_m = record->recorder->change_m;
    return change_m <= 0 || record->count == 0 || sample->event != event ||
           fabs(sample->depth_m - record->samples[record->count - 1].depth_m) >= change_m - 1e-9;
}

bool gen_record_find(struct gen_record *out, const struct gen_dive *dive, const struct gen_course *course,
                     const struct gen_recorder *recorder, const struct gen_log *log, uint64_t seed)
{
    uint64_t own_seed = gen_random_named(seed, dive->name).state;
    struct gen_random random = gen_random_named(own_seed, recorder->name);
    double begin_s = floor(gen_random_between(&random, 0, 7));
    *out = (struct gen_record){.dive = dive, .recorder = recorder};
    out->begin_s = begin_s;
    out->start_ms = dive->start_ms + (int64_t)(begin_s + recorder->clock_offset_s) * 1000;
    events_take(out, course);
    double rate = 1 + recorder->clock_drift_ppm * 1e-6;
    double least_s = fmax(1, recorder->interval_s - recorder->jitter_s);
    double most = (double)course->count * rate / least_s + 2;
    out->samples = calloc((size_t)most, sizeof *out->samples);
    if (out->samples == NULL) {
        return false;
    }
    struct senses senses = {{course->loop_bar[0], course->loop_bar[0], course->loop_bar[0]}, dive->surface_c, 0};
    int event = -1;
    for (double time_s = 0; out->count < (size_t)most; time_s += interval_next_s(recorder, &random)) {
        struct gen_sample *sample = &out->samples[out->count];
        sample->time_s = time_s;
        double true_s = begin_s + sample->time_s / rate;
        if (true_s > (double)(course->count - 1)) {
            break;
        }
        senses_follow(&senses, out, course, true_s);
        sample_take(sample, out, course, &senses, &random, true_s);
        sample->event = event_at(out, course->event_count, true_s);
        if (!in_gap(log, sample->time_s) && is_told(out, sample, event)) {
            sample->changed = sample->event != event;
            event = sample->event;
            out->count++;
        }
    }
    return out->count > 1;
}

static int by_time(const void *a, const void *b)
{
    double first = ((const struct gen_sample *)a)->time_s;
    double second = ((const struct gen_sample *)b)->time_s;
    return (first > second) - (first < second);
}

bool gen_record_plan(struct gen_record *out, const struct gen_dive *dive, const struct gen_course *course,
                     const struct gen_recorder *recorder)
{
    *out = (struct gen_record){.dive = dive, .recorder = recorder, .start_ms = dive->start_ms};
    size_t most = course->corner_count + (size_t)course->event_count;
    struct gen_sample *samples = calloc(most, sizeof *samples);
    if (samples == NULL) {
        return false;
    }
    for (size_t i = 0; i < course->corner_count; i++) {
        samples[i].time_s = course->corners[i].time_s;
        samples[i].depth_m = course->corners[i].depth_m;
    }
    for (int i = 0; i < course->event_count; i++) {
        struct gen_sample *sample = &samples[course->corner_count + (size_t)i];
        out->events[i] = course->events[i];
        sample->time_s = course->events[i].time_s;
        sample->depth_m = rounded(course->depth_m[(size_t)sample->time_s], 0.01);
    }
    qsort(samples, most, sizeof *samples, by_time);
    for (size_t i = 0; i < most; i++) {
        if (i > 0 && samples[i].time_s == samples[out->count - 1].time_s) {
            continue;
        }
        samples[out->count] = samples[i];
        samples[out->count].event = event_at(out, course->event_count, samples[i].time_s);
        out->count++;
    }
    int event = -1;
    for (size_t i = 0; i < out->count; i++) {
        samples[i].changed = samples[i].event != event;
        event = samples[i].event;
        samples[i].temp_c = (double)NAN;
        for (int cell = 0; cell < GEN_CELLS; cell++) {
            samples[i].cell_bar[cell] = (double)NAN;
        }
    }
    out->samples = samples;
    return out->count > 1;
}

void gen_record_free(struct gen_record *record)
{
    free(record->samples);
}
