/*
 * The oxygen pressure of a loop: who is believed at a sample, and what is taken where nobody speaks.
 * Must not clip: a PO2 above ambient pressure is leg.c's.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "gas/mix.h"
#include "replay/loop.h"

/* Words of the rule `oxygen`. */
enum { TAKE_AUTO, TAKE_MEASURED, TAKE_SETPOINT };

struct plmi_recording plmi_recording_of(const struct plm_dive *dive)
{
    struct plmi_recording recording;
    size_t settings, mixes;
    recording.samples = plm_dive_samples(dive, &recording.count);
    recording.settings = plm_dive_settings(dive, &settings);
    recording.mixes = plm_dive_mixes(dive, &mixes);
    return recording;
}

/* Median of n values, 1 <= n <= PLM_CELLS; may sort them. Three are what a loop usually has: without a branch. */
static double median(double *values, int n)
{
    if (n == 3) {
        double low = values[0] < values[1] ? values[0] : values[1];
        double high = values[0] < values[1] ? values[1] : values[0];
        double middle = values[2] < high ? values[2] : high;
        return middle > low ? middle : low;
    }
    for (int i = 1; i < n; i++) {
        for (int j = i; j > 0 && values[j] < values[j - 1]; j--) {
            double swapped = values[j];
            values[j] = values[j - 1];
            values[j - 1] = swapped;
        }
    }
    return n % 2 == 1 ? values[n / 2] : 0.5 * (values[n / 2 - 1] + values[n / 2]);
}

bool plmi_cell_lives(double cell_bar)
{
    return cell_bar >= PLMI_CELL_LEAST_BAR;
}

double plmi_cells_median(const double cell_bar[PLM_CELLS])
{
    double living[PLM_CELLS];
    int n = 0;
    for (int i = 0; i < PLM_CELLS; i++) {
        if (plmi_cell_lives(cell_bar[i])) {
            living[n++] = cell_bar[i];
        }
    }
    return n > 0 ? median(living, n) : (double)NAN;
}

/* That of one cell alone, from 1, where it lives; else the median. */
static double cells_bar(const struct plm_sample *sample, int cell)
{
    bool alone = cell > 0 && plmi_cell_lives(sample->cell_bar[cell - 1]);
    return alone ? sample->cell_bar[cell - 1] : plmi_cells_median(sample->cell_bar);
}

static const struct plm_setting *setting_at(const struct plmi_recording *recording, size_t i)
{
    return &recording->settings[recording->samples[i].setting];
}

static bool on_loop(const struct plmi_recording *recording, size_t i)
{
    return setting_at(recording, i)->mode != PLM_MODE_OPEN;
}

/* The set point that may stand in for a measurement: a semi-closed loop holds none. */
static double setpoint_at(const struct plmi_recording *recording, size_t i)
{
    const struct plm_setting *setting = setting_at(recording, i);
    return setting->mode == PLM_MODE_CLOSED ? setting->setpoint_bar : (double)NAN;
}

/* What is measured at each sample of its own. */
static void measure(struct plmi_loop_track *track, const struct plmi_recording *recording, int cell)
{
    for (size_t i = 0; i < recording->count; i++) {
        const struct plm_sample *sample = &recording->samples[i];
        double measured_bar = (double)NAN;
        track->from[i] = PLMI_OXYGEN_CELLS;
        if (on_loop(recording, i)) {
            measured_bar = cells_bar(sample, cell);
            if (isnan(measured_bar)) {
                measured_bar = sample->po2_bar;
                track->from[i] = PLMI_OXYGEN_LOGGED;
            }
        }
        track->measured_bar[i] = measured_bar;
    }
}

/* Linear in time from the known sample a to the known sample b, for those between. */
static void interpolate(struct plmi_loop_track *track, const struct plm_sample *samples, size_t a, size_t b)
{
    double span_ms = (double)(samples[b].time_ms - samples[a].time_ms);
    double rise_bar = track->measured_bar[b] - track->measured_bar[a];
    for (size_t i = a + 1; i < b; i++) {
        double since_ms = (double)(samples[i].time_ms - samples[a].time_ms);
        double share = span_ms > 0.0 ? since_ms / span_ms : 0.0;
        track->measured_bar[i] = track->measured_bar[a] + share * rise_bar;
        track->from[i] = track->from[a];
    }
}

/* Holds the value of sample `of` over first..last where no set point speaks, or where measurements are asked for. */
static void hold(struct plmi_loop_track *track, const struct plmi_recording *recording, const struct plm_rules *rules,
                 size_t first, size_t last, size_t of)
{
    for (size_t i = first; i < last; i++) {
        if (rules->oxygen != TAKE_AUTO || isnan(setpoint_at(recording, i))) {
            track->measured_bar[i] = track->measured_bar[of];
            track->from[i] = track->from[of];
        }
    }
}

/* One stretch on the loop, samples first .. end - 1: between measurements by time, at its ends held. */
static void fill(struct plmi_loop_track *track, const struct plmi_recording *recording, const struct plm_rules *rules,
                 size_t first, size_t end)
{
    size_t last = end;
    for (size_t i = first; i < end; i++) {
        if (isnan(track->measured_bar[i])) {
            continue;
        }
        if (last == end) {
            hold(track, recording, rules, first, i, i);
        } else {
            interpolate(track, recording->samples, last, i);
        }
        last = i;
    }
    if (last != end) {
        hold(track, recording, rules, last + 1, end, last);
    }
}

static bool has_loop(const struct plmi_recording *recording)
{
    for (size_t i = 0; i < recording->count; i++) {
        if (on_loop(recording, i)) {
            return true;
        }
    }
    return false;
}

bool plmi_loop_track_find(struct plmi_loop_track *track, const struct plmi_recording *recording,
                          const struct plm_rules *rules, int cell)
{
    memset(track, 0, sizeof *track);
    if (!has_loop(recording)) {
        return true;
    }
    track->measured_bar = calloc(recording->count, sizeof *track->measured_bar);
    track->from = calloc(recording->count, sizeof *track->from);
    if (track->measured_bar == NULL || track->from == NULL) {
        plmi_loop_track_free(track);
        return false;
    }
    measure(track, recording, cell);
    for (size_t i = 0; i < recording->count;) {
        size_t end = i;
        while (end < recording->count && on_loop(recording, end)) {
            end++;
        }
        fill(track, recording, rules, i, end);
        i = end + 1;
    }
    return true;
}

void plmi_loop_track_free(struct plmi_loop_track *track)
{
    free(track->measured_bar);
    free(track->from);
    memset(track, 0, sizeof *track);
}

struct plmi_loop_leg plmi_loop_leg_find(const struct plmi_loop_track *track, const struct plmi_recording *recording,
                                        const struct plm_rules *rules, size_t i)
{
    const struct plm_setting *setting = setting_at(recording, i);
    if (setting->mode == PLM_MODE_OPEN) {
        return (struct plmi_loop_leg){PLMI_OXYGEN_OPEN, (double)NAN, (double)NAN};
    }
    if (plmi_mix_is_oxygen(&recording->mixes[setting->mix].mix)) {
        return (struct plmi_loop_leg){PLMI_OXYGEN_ALONE, (double)NAN, (double)NAN};
    }
    double setpoint_bar = setpoint_at(recording, i);
    double start_bar = track->measured_bar[i];
    bool by_setpoint = !isnan(setpoint_bar) && (rules->oxygen == TAKE_SETPOINT || isnan(start_bar));
    if (by_setpoint) {
        return (struct plmi_loop_leg){PLMI_OXYGEN_SETPOINT, setpoint_bar, setpoint_bar};
    }
    if (!isnan(start_bar)) {
        bool next_known = i + 1 < recording->count && !isnan(track->measured_bar[i + 1]);
        double end_bar = next_known ? track->measured_bar[i + 1] : start_bar;
        return (struct plmi_loop_leg){track->from[i], start_bar, end_bar};
    }
    enum plmi_oxygen_source mix = setting->mode == PLM_MODE_SEMICLOSED ? PLMI_OXYGEN_SUPPLY : PLMI_OXYGEN_DILUENT;
    return (struct plmi_loop_leg){mix, (double)NAN, (double)NAN};
}
