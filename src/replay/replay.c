/*
 * The replay: walks a recording leg by leg and writes down what the model says at every sample.
 * Must not judge, and must not allocate while it walks.
 * SPDX-License-Identifier: MIT
 */
#include <assert.h>
#include <math.h>
#include <stdint.h>
#include <stdlib.h>

#include "replay/assumed.h"
#include "replay/dose.h"
#include "replay/edited_replay.h"
#include "replay/leg.h"
#include "replay/limits.h"
#include "replay/noise.h"
#include "replay/rate.h"
#include "replay/schedules.h"
#include "replay/summary.h"
#include "replay/surroundings.h"

/* A replay under way. */
struct walk {
    const struct plm_replay_options *options;
    const struct plm_rules *rules;
    struct plmi_recording recording;
    struct plmi_loop_track track;
    struct plm_trace *trace;
    struct plmi_bounds bounds;
    double bar_per_m;
    struct plmi_decay decay;
    struct plm_tissue tissue;
    double anchor_bar;
    struct plmi_dose_meter doses;
    unsigned oxygen_used; /* bits of enum plmi_oxygen_source */
    /* what was replayed before, NULL none; up to sample `taken` it is this replay, too */
    const struct plm_trace *before;
    size_t taken;
};

struct plm_replay_options plm_replay_options_default(const struct plm_rules *rules)
{
    return (struct plm_replay_options){
        .rules = rules,
        .surface_bar = (double)NAN,
        .altitude_m = (double)NAN,
        .water_kg_m3 = (double)NAN,
        .depth_scale = 1.0,
    };
}

static double depth_at(const struct walk *walk, size_t i)
{
    double recorded_m = walk->recording.samples[i].depth_m;
    double depth_m = recorded_m * walk->options->depth_scale + walk->options->depth_shift_m;
    return depth_m > 0.0 ? depth_m : 0.0;
}

static double ambient_at(const struct walk *walk, size_t i)
{
    return walk->bounds.surface_bar + depth_at(walk, i) * walk->bar_per_m;
}

/* The leg from sample i to the next; without length for the last sample. */
static struct plmi_recorded_leg leg_at(const struct walk *walk, size_t i)
{
    const struct plmi_recording *recording = &walk->recording;
    const struct plm_setting *setting = &recording->settings[recording->samples[i].setting];
    size_t next = i + 1 < recording->count ? i + 1 : i;
    int64_t dt_ms = recording->samples[next].time_ms - recording->samples[i].time_ms;
    return (struct plmi_recorded_leg){
        .dt_s = (double)dt_ms / 1000.0,
        .ambient_start_bar = ambient_at(walk, i),
        .ambient_end_bar = ambient_at(walk, next),
        .mix = &recording->mixes[setting->mix].mix,
        .loop = plmi_loop_leg_find(&walk->track, recording, walk->rules, i),
        .vapour_bar = walk->rules->water_vapour_bar,
    };
}

/* What was recorded and what is breathed at sample i, from this moment on. */
static void point_breathe(const struct walk *walk, size_t i, const struct plmi_recorded_leg *leg,
                          const struct plmi_moment *moment)
{
    const struct plm_sample *sample = &walk->recording.samples[i];
    const struct plm_setting *setting = &walk->recording.settings[sample->setting];
    struct plm_point *point = &walk->trace->points[i];
    point->time_ms = sample->time_ms;
    point->line = sample->line;
    point->depth_m = depth_at(walk, i);
    point->ambient_bar = moment->ambient_bar;
    point->mode = setting->mode;
    point->o2_frac = leg->mix->o2_frac;
    point->he_frac = leg->mix->he_frac;
    point->setpoint_bar = setting->setpoint_bar;
    point->po2_bar = moment->inspired.o2_bar;
    point->density_g_l = moment->density_g_l;
    point->end_m = plmi_end_m(plmi_moment_n2_bar(leg, moment), moment->inspired.o2_bar, walk->bounds.surface_bar,
                              walk->bar_per_m, walk->rules->o2_narcotic != 0);
}

/* What the model says at sample i. */
static void point_load(struct walk *walk, size_t i)
{
    struct plm_point *point = &walk->trace->points[i];
    const struct plmi_bounds *bounds = &walk->bounds;
    bool on_surface = point->depth_m < walk->rules->surface_depth_m;
    struct plmi_limits limits;
    plmi_limits_find(&limits, &walk->tissue, bounds->model);
    walk->anchor_bar = plmi_anchor_next_bar(bounds, &limits, walk->anchor_bar, on_surface);
    double ceiling_bar = plmi_anchored_ceiling_bar(bounds, &limits, walk->anchor_bar);
    double bare_bar = plmi_constant_ceiling_bar(&limits, 1.0, bounds->surface_bar);
    point->tissue = walk->tissue;
    point->anchor_bar = walk->anchor_bar;
    point->ceiling_m = (ceiling_bar - bounds->surface_bar) / walk->bar_per_m;
    point->clearance_m = point->depth_m - point->ceiling_m;
    point->no_limit_ceiling_m = (bare_bar - bounds->surface_bar) / walk->bar_per_m;
    point->gradient_pct = plmi_limits_gradient_pct(&limits, point->ambient_bar, &point->leading);
    point->leading++;
    point->surfacing_gradient_pct = plmi_limits_gradient_pct(&limits, bounds->surface_bar, NULL);
    point->cns_pct = walk->doses.total.cns_pct;
    point->cns_day_pct = walk->doses.total.cns_day_pct;
    point->otu = walk->doses.total.otu;
    point->esot = walk->doses.total.esot;
    point->tts_s = point->no_stop_s = (double)NAN;
}

/* Takes tissues and doses through a piece; held: the tissues stand still. */
static void piece_step(struct walk *walk, const struct plmi_piece *piece, bool held)
{
    const struct plmi_moment *start = &piece->start, *end = &piece->end;
    struct plmi_leg inert = {piece->dt_s, start->inspired.n2_bar, end->inspired.n2_bar, start->inspired.he_bar,
                             end->inspired.he_bar};
    if (!held) {
        plmi_tissue_step(&walk->tissue, &inert, &walk->decay);
    }
    plmi_dose_meter_add(&walk->doses, start->inspired.o2_bar, end->inspired.o2_bar, piece->dt_s);
}

/* Through the leg from a sample to the next; before sample `taken` only what the summary counts. */
static void leg_step(struct walk *walk, size_t sample, double time_s, const struct plmi_recorded_leg *leg)
{
    struct plmi_piece pieces[PLMI_PIECES_MAX];
    int count = plmi_pieces_find(pieces, leg);
    /* What is carried is the state on going under water: the time before, which the record tells as well, is in it
     * already. */
    bool held = walk->trace->start.residual && walk->recording.samples[sample].time_ms < walk->trace->wet_from_ms;
    for (int i = 0; i < count; i++) {
        if (sample >= walk->taken) {
            piece_step(walk, &pieces[i], held);
        }
        plmi_summary_piece(&walk->trace->summary, time_s, &pieces[i], walk->rules);
        time_s += pieces[i].dt_s;
    }
    walk->oxygen_used |= (unsigned)leg->loop.from;
}

/* A point as it was replayed before, and the state behind it. */
static void point_take(struct walk *walk, size_t i)
{
    struct plm_point *point = &walk->trace->points[i];
    *point = walk->before->points[i];
    point->tts_s = point->no_stop_s = (double)NAN;
    if (i + 1 == walk->taken) {
        const struct plm_point *next = &walk->before->points[walk->taken];
        walk->anchor_bar = point->anchor_bar;
        walk->tissue = next->tissue;
        walk->doses.total = (struct plmi_doses){next->cns_pct, next->cns_day_pct, next->otu, next->esot};
    }
}

static void walk_all(struct walk *walk)
{
    for (size_t i = 0; i < walk->recording.count; i++) {
        double time_s = (double)walk->recording.samples[i].time_ms / 1000.0;
        struct plmi_recorded_leg leg = leg_at(walk, i);
        struct plmi_moment moment = plmi_leg_start(&leg);
        if (i == 0) {
            plmi_summary_init(&walk->trace->summary, time_s, &moment);
        }
        if (i < walk->taken) {
            point_take(walk, i);
        } else {
            point_breathe(walk, i, &leg, &moment);
            point_load(walk, i);
        }
        if (leg.dt_s > 0.0) {
            leg_step(walk, i, time_s, &leg);
        }
    }
}

static void walk_init(struct walk *walk)
{
    const struct plm_assumed *assumed = &walk->trace->assumed;
    const struct plm_start *start = &walk->trace->start;
    walk->bounds = plmi_bounds_of(walk->rules, assumed->surface_bar);
    assert(walk->bounds.model != NULL);
    walk->bar_per_m = plm_bar_per_m(assumed->water_kg_m3);
    plmi_decay_init(&walk->decay, walk->bounds.model);
    walk->tissue = start->tissue;
    walk->anchor_bar = start->anchor_bar;
    plmi_dose_meter_init(&walk->doses, start->cns_pct);
}

/* Room for more points than the trace has; those that are taken over in place are kept. NULL without memory: the trace
 * keeps what it has. */
static struct plm_point *points_room(struct walk *walk, size_t count)
{
    struct plm_trace *trace = walk->trace;
    if (count > SIZE_MAX / 2 / sizeof *trace->points) {
        return NULL;
    }
    if (walk->before == trace) {
        return realloc(trace->points, count * sizeof *trace->points);
    }
    free(trace->points);
    trace->points = NULL;
    trace->capacity = 0;
    return malloc(count * sizeof *trace->points);
}

/* Points and the track of the loop's oxygen: all the memory that a replay takes. */
static bool walk_allocate(struct walk *walk)
{
    struct plm_trace *trace = walk->trace;
    /* Some more for the edits to come, which may have more samples. */
    size_t count = walk->recording.count, more = walk->before != NULL ? count / 16 + 16 : 0;
    trace->count = count;
    if (trace->capacity < count) {
        struct plm_point *points = points_room(walk, count + more);
        if (points == NULL) {
            return false;
        }
        trace->points = points;
        trace->capacity = count + more;
    }
    return trace->points != NULL &&
           plmi_loop_track_find(&walk->track, &walk->recording, walk->rules, walk->options->cell);
}

static enum plm_status replay(struct walk *walk, const struct plm_dive *dive, struct plmi_diags *diags)
{
    const struct plm_dive_info *info = plm_dive_info_get(dive);
    enum plm_status status = plmi_surroundings_find(walk->trace, info, walk->options, diags);
    if (status != PLM_STATUS_OK) {
        return status;
    }
    plmi_start_settle(walk->trace, walk->options->start, walk->rules);
    if (!walk_allocate(walk)) {
        return plmi_diags_no_memory(diags, (long)info->line, "for a replay of %zu samples", walk->recording.count);
    }
    const struct plm_sample *samples = walk->recording.samples;
    const struct plmi_summary_course course = {.wet = plmi_wet_find(samples, walk->recording.count, walk->rules),
                                               .ends_in_water = info->ends_in_water,
                                               .planned_max_m = walk->options->planned_max_m};
    walk->trace->wet_from_ms = samples[course.wet.from].time_ms;
    walk->trace->wet_to_ms = samples[course.wet.to].time_ms;
    walk_init(walk);
    walk_all(walk);
    plmi_noise_settle(walk->trace, info, walk->rules);
    plmi_rates_find(walk->trace->points, walk->trace->count, walk->rules->ascent_window_s, walk->bar_per_m,
                    walk->trace->assumed.depth_noise_m);
    plmi_summary_finish(walk->trace, walk->rules, &course);
    plmi_assumed_settle(walk->trace, info, walk->rules, walk->oxygen_used, diags);
    if (walk->options->schedules) {
        plmi_schedules_fill(walk->trace, dive, walk->rules);
    }
    return PLM_STATUS_OK;
}

/* An empty trace, in the memory of another if there is one. */
static struct plm_trace *trace_again(struct plm_trace *other)
{
    struct plm_trace *trace = other != NULL ? other : calloc(1, sizeof *trace);
    if (other != NULL) {
        struct plm_point *points = other->points;
        size_t capacity = other->capacity;
        *trace = (struct plm_trace){.points = points, .capacity = capacity};
    }
    return trace;
}

enum plm_status plmi_edited_replay(struct plm_trace **out, const struct plm_dive *dive,
                                   const struct plmi_replayed *before, const struct plm_replay_options *options,
                                   const struct plm_diag_sink *sink)
{
    struct plmi_diags diags;
    plmi_diags_init(&diags, sink, plm_dive_info_get(dive)->file);
    struct walk walk = {.options = options, .rules = options->rules};
    walk.recording = plmi_recording_of(dive);
    if (before != NULL) {
        struct plmi_recording recording = plmi_recording_of(before->dive);
        walk.before = before->trace;
        walk.taken = plmi_recordings_part(&recording, &walk.recording);
    }
    walk.trace = trace_again(*out);
    enum plm_status status = PLM_STATUS_MEMORY;
    if (walk.trace == NULL) {
        (void)plmi_diags_no_memory(&diags, 0, "for a replay");
    } else {
        status = replay(&walk, dive, &diags);
    }
    plmi_loop_track_free(&walk.track);
    if (status != PLM_STATUS_OK) {
        plm_trace_free(walk.trace);
        walk.trace = NULL;
    }
    *out = walk.trace;
    return status;
}

enum plm_status plm_replay(struct plm_trace **out, const struct plm_dive *dive,
                           const struct plm_replay_options *options, const struct plm_diag_sink *sink)
{
    *out = NULL;
    return plmi_edited_replay(out, dive, NULL, options, sink);
}
