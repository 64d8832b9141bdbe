/*
 * Drops samples at depths that no diver can have swum to and from. Must not touch what can be swum.
 * SPDX-License-Identifier: MIT
 */
#include "dive/builder_spikes.h"

#include <math.h>

#include "base/figure.h"
#include "dive/steps.h"

/* More than one in so many samples, and it is the record as a whole that cannot be. */
#define SHARE_DROPPED 4
#define RUN_MOST      2
/* A record that still changes after so many walks is left as it is. */
#define PASSES_MOST 16

/* Recorders read a little above the surface; more than this [m] is told. */
#define DEPTH_QUIET_M (-1.0)

/* How a record is walked. */
struct walk {
    struct plm_dive_builder *builder;
    int64_t usual_ms; /* [ms] the usual step of the record */
    bool on_change;   /* a way counts as lasting no longer than that; else as long as it lasts */
    bool drops;       /* else spikes are counted alone */
};

/* [m/min] between two samples where the way counts as lasting at most most_ms; 0 where their moments do not differ. */
static double rate_m_min(const struct plm_sample *from, const struct plm_sample *to, int64_t most_ms)
{
    int64_t long_ms = to->time_ms - from->time_ms;
    long_ms = most_ms > 0 && long_ms > most_ms ? most_ms : long_ms;
    return long_ms > 0 ? fabs(to->depth_m - from->depth_m) * 60e3 / (double)long_ms : 0;
}

static bool far(const struct plm_rules *rules, const struct plm_sample *from, const struct plm_sample *to)
{
    return fabs(to->depth_m - from->depth_m) >= rules->spike_least_m;
}

static bool unswimmable(const struct plm_rules *rules, const struct plm_sample *from, const struct plm_sample *to,
                        int64_t most_ms)
{
    return far(rules, from, to) && rate_m_min(from, to, most_ms) > rules->spike_m_min;
}

/* Whether the samples from first to last, behind before and ahead of after, are away and back. */
static bool is_spike(const struct walk *walk, const struct plm_sample *before, const struct plm_sample *first,
                     const struct plm_sample *last, const struct plm_sample *after)
{
    const struct plm_rules *rules = &walk->builder->rules;
    int64_t most_ms = walk->on_change ? walk->usual_ms : 0;
    if (last->time_ms - first->time_ms > RUN_MOST * walk->usual_ms) {
        return false; /* there for long */
    }
    bool sure = unswimmable(rules, before, first, 0) || unswimmable(rules, last, after, 0);
    return sure && unswimmable(rules, before, first, most_ms) && unswimmable(rules, last, after, most_ms) &&
           rate_m_min(before, after, 0) <= rules->spike_m_min;
}

/* How many samples from i on are a spike behind the sample before; 0 none. */
static size_t spike_at(const struct walk *walk, const struct plm_sample *before, size_t i)
{
    const struct plm_dive *dive = walk->builder->dive;
    for (size_t n = 1; n <= RUN_MOST && i + n < dive->sample_count; n++) {
        if (is_spike(walk, before, &dive->samples[i], &dive->samples[i + n - 1], &dive->samples[i + n])) {
            return n;
        }
    }
    return 0;
}

static void drop(struct plm_dive_builder *builder, const struct plm_sample *sample, const struct plm_sample *before,
                 const struct plm_sample *after)
{
    double there_m_min = rate_m_min(before, sample, 0), back_m_min = rate_m_min(sample, after, 0);
    plmi_builder_odd(builder, sample, true);
    plmi_builder_lose(builder, PLM_DIAG_SPIKE, sample->line,
                      "a depth of %s m between %s m and %s m: nobody swims at %s m/min there and back (rule "
                      "spike_m_min); sample dropped",
                      plmi_figure(sample->depth_m, 1).text, plmi_figure(before->depth_m, 1).text,
                      plmi_figure(after->depth_m, 1).text, plmi_figure(fmax(there_m_min, back_m_min), 0).text);
}

/* Walks over the record from its second sample on. Returns: how many samples are spikes. */
static size_t walk_spikes(const struct walk *walk)
{
    struct plm_dive *dive = walk->builder->dive;
    struct plm_sample before = dive->samples[0];
    size_t kept = 1, spikes = 0;
    for (size_t i = 1; i < dive->sample_count;) {
        size_t n = spike_at(walk, &before, i);
        for (size_t k = 0; walk->drops && k < n; k++) {
            drop(walk->builder, &dive->samples[i + k], &before, &dive->samples[i + n]);
        }
        spikes += n;
        i += n;
        before = dive->samples[i];
        if (walk->drops) {
            dive->samples[kept++] = before;
        }
        i++;
    }
    dive->sample_count = walk->drops ? kept : dive->sample_count;
    return spikes;
}

static bool too_many(const struct plm_dive_builder *builder, size_t odd)
{
    return odd * SHARE_DROPPED > builder->dive->sample_count;
}

/* Returns: false where it were so many that the record as a whole cannot be; none is dropped then. */
static bool drop_spikes(struct plm_dive_builder *builder, int64_t usual_ms, bool on_change)
{
    struct walk walk = {builder, usual_ms, on_change, false};
    size_t spikes = walk_spikes(&walk);
    if (too_many(builder, spikes)) {
        return false;
    }
    walk.drops = true;
    return spikes == 0 || walk_spikes(&walk) == spikes;
}

/* Whether the sample at an end is far deeper than the one beside it, from which the record goes on as it can be swum.
 */
static bool deep_end(const struct plm_rules *rules, const struct plm_sample *end, const struct plm_sample *next,
                     const struct plm_sample *beyond)
{
    bool late = end->time_ms > next->time_ms;
    bool jumps = late ? unswimmable(rules, next, end, 0) : unswimmable(rules, end, next, 0);
    bool goes_on = late ? !unswimmable(rules, beyond, next, 0) : !unswimmable(rules, next, beyond, 0);
    return jumps && goes_on && end->depth_m > next->depth_m && end->setting == next->setting;
}

static void drop_ends(struct plm_dive_builder *builder)
{
    if (builder->dive->sample_count < 4) {
        return;
    }
    struct plm_dive *dive = builder->dive;
    const struct plm_sample *all = dive->samples;
    size_t last = dive->sample_count - 1;
    if (last >= 3 && deep_end(&builder->rules, &all[last], &all[last - 1], &all[last - 2])) {
        drop(builder, &all[last], &all[last - 1], &all[last]);
        dive->sample_count--;
    }
    if (last >= 3 && deep_end(&builder->rules, &all[0], &all[1], &all[2])) {
        drop(builder, &all[0], &all[0], &all[1]);
        dive->sample_count--;
        for (size_t i = 0; i < dive->sample_count; i++) {
            dive->samples[i] = dive->samples[i + 1];
        }
    }
}

static bool doubtful(const struct plm_rules *rules, const struct plm_sample *before, const struct plm_sample *sample,
                     const struct plm_sample *after)
{
    bool back = (sample->depth_m > before->depth_m) == (sample->depth_m > after->depth_m);
    return back && far(rules, before, sample) && far(rules, sample, after) &&
           rate_m_min(before, sample, 0) > rules->doubt_m_min && rate_m_min(sample, after, 0) > rules->doubt_m_min;
}

static void tell_doubtful(struct plm_dive_builder *builder)
{
    const struct plm_dive *dive = builder->dive;
    for (size_t i = 1; i + 1 < dive->sample_count; i++) {
        const struct plm_sample *before = &dive->samples[i - 1], *sample = &dive->samples[i], *after = sample + 1;
        if (doubtful(&builder->rules, before, sample, after)) {
            double rate = fmax(rate_m_min(before, sample, 0), rate_m_min(sample, after, 0));
            plmi_builder_odd(builder, sample, false);
            plmi_builder_tell(builder, PLM_LEVEL_WARNING, PLM_DIAG_DOUBTFUL_SAMPLE, sample->line,
                              "a single sample at %s m between %s m and %s m, at %s m/min there and back; is it wrong? "
                              "taken as recorded",
                              plmi_figure(sample->depth_m, 1).text, plmi_figure(before->depth_m, 1).text,
                              plmi_figure(after->depth_m, 1).text, plmi_figure(rate, 0).text);
        }
    }
}

/* How many samples from i on read above the surface by more than the rule. */
static size_t run_above(const struct plm_dive_builder *builder, size_t i)
{
    const struct plm_dive *dive = builder->dive;
    size_t n = 0;
    while (i + n < dive->sample_count && dive->samples[i + n].depth_m < -builder->rules.above_surface_max_m) {
        n++;
    }
    return n;
}

/* Where the surface itself reads above 0 m, the samples beside it do too. */
static bool in_water_around(const struct plm_dive *dive, size_t i, size_t next)
{
    return i > 0 && next < dive->sample_count && dive->samples[i - 1].depth_m >= 0 && dive->samples[next].depth_m >= 0;
}

static void drop_above(struct plm_dive_builder *builder)
{
    struct plm_dive *dive = builder->dive;
    size_t kept = 0;
    for (size_t i = 0; i < dive->sample_count;) {
        size_t n = run_above(builder, i), next = i + (n > 0 ? n : 1);
        bool odd = n > 0 && n <= RUN_MOST && in_water_around(dive, i, next);
        for (; i < next; i++) {
            if (!odd) {
                dive->samples[kept++] = dive->samples[i];
                continue;
            }
            plmi_builder_odd(builder, &dive->samples[i], true);
            plmi_builder_lose(builder, PLM_DIAG_DEPTH_NEGATIVE, dive->samples[i].line,
                              "a depth of %s m is above the surface by more than %s m (rule above_surface_max_m); "
                              "sample dropped",
                              plmi_figure(dive->samples[i].depth_m, 1).text,
                              plmi_figure_short(builder->rules.above_surface_max_m, 1).text);
        }
    }
    dive->sample_count = kept;
}

void plmi_builder_above(struct plm_dive_builder *builder)
{
    struct plm_dive *dive = builder->dive;
    if (!builder->copied) {
        drop_above(builder);
    }
    for (size_t i = 0; i < dive->sample_count; i++) {
        struct plm_sample *sample = &dive->samples[i];
        if (sample->depth_m < DEPTH_QUIET_M) {
            plmi_builder_tell(builder, PLM_LEVEL_WARNING, PLM_DIAG_DEPTH_NEGATIVE, sample->line,
                              "a depth of %s m is above the surface; 0 m taken", plmi_figure(sample->depth_m, 1).text);
        }
        if (sample->depth_m <= 0) {
            sample->depth_m = 0; /* -0.0 too */
        }
    }
}

static bool setting_same(const struct plm_setting *a, const struct plm_setting *b)
{
    bool none = isnan(a->setpoint_bar) && isnan(b->setpoint_bar);
    return a->mode == b->mode && a->mix == b->mix && (none || a->setpoint_bar == b->setpoint_bar);
}

/* Settings that only dropped samples held go with them. */
static void settings_prune(struct plm_dive *dive)
{
    uint32_t last = 0;
    size_t kept = 0;
    for (size_t i = 0; i < dive->sample_count; i++) {
        uint32_t at = dive->samples[i].setting;
        bool fresh = kept == 0 || (at != last && !setting_same(&dive->settings[at], &dive->settings[kept - 1]));
        if (fresh) {
            dive->settings[kept++] = dive->settings[at];
        }
        dive->samples[i].setting = (uint32_t)(kept - 1);
        last = at;
    }
    dive->setting_count = kept;
}

/* One walk of a kind, the surest first: a spike that goes changes what the next walk sees. Returns: false where the
 * record is wrong as a whole. */
static bool drop_some(struct plm_dive_builder *builder, int64_t usual_ms)
{
    const size_t before = builder->dive->sample_count;
    if (!drop_spikes(builder, usual_ms, false)) {
        return false;
    }
    if (usual_ms > 0 && before == builder->dive->sample_count && !drop_spikes(builder, usual_ms, true)) {
        return false;
    }
    if (before == builder->dive->sample_count) {
        drop_ends(builder);
    }
    return true;
}

/* Until nothing changes, so that a dive that is written and read again stays. */
static bool drop_odd(struct plm_dive_builder *builder)
{
    const struct plm_dive *dive = builder->dive;
    size_t before = 0;
    for (int passes = 0; passes < PASSES_MOST && dive->sample_count >= 3 && before != dive->sample_count; passes++) {
        before = dive->sample_count;
        int64_t usual_ms = plmi_usual_step_ms(dive->samples, dive->sample_count);
        if (usual_ms < 0) {
            return false;
        }
        if (!drop_some(builder, usual_ms)) {
            return true;
        }
    }
    tell_doubtful(builder);
    return true;
}

bool plmi_builder_spikes(struct plm_dive_builder *builder)
{
    bool done = drop_odd(builder);
    if (builder->dive->info.odd_dropped > 0) {
        settings_prune(builder->dive);
    }
    return done;
}
