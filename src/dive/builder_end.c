/*
 * Where a record ends that cannot be followed to its own end. Must not invent what the diver did behind it.
 * SPDX-License-Identifier: MIT
 */
#include "dive/builder_end.h"

#include <math.h>
#include <string.h>

#include "base/figure.h"

static bool in_water(const struct plm_dive_builder *builder, size_t i)
{
    return builder->dive->samples[i].depth_m > builder->rules.surface_depth_m;
}

/* What was taken away, and the line where it begins. */
struct gone {
    size_t samples, events;
    uint32_t line;
};

/* Takes away what is later than time_ms. */
static struct gone end_at(struct plm_dive_builder *builder, int64_t time_ms)
{
    struct plm_dive *dive = builder->dive;
    struct gone gone = {dive->sample_count, dive->event_count, 0};
    for (size_t i = dive->sample_count; i > 0 && dive->samples[i - 1].time_ms > time_ms; i--) {
        gone.line = dive->samples[i - 1].line;
    }
    plm_dive_builder_cut(builder, time_ms);
    gone.samples -= dive->sample_count;
    gone.events -= dive->event_count;
    dive->info.ends_in_water = in_water(builder, dive->sample_count - 1);
    return gone;
}

static void end_of_room(struct plm_dive_builder *builder)
{
    const struct plm_dive *dive = builder->dive;
    const struct plmi_figure most = plmi_figure_short(builder->rules.samples_max, 0);
    if (builder->beyond_samples > 0) {
        struct gone gone = end_at(builder, dive->samples[dive->sample_count - 1].time_ms);
        plmi_builder_lose(builder, PLM_DIAG_LIMIT, builder->beyond_line,
                          "more than %s samples or events (rule samples_max); the record ends there, at %s m; %zu "
                          "samples and %zu events behind it are "
                          "not used",
                          most.text, plmi_figure(dive->samples[dive->sample_count - 1].depth_m, 1).text,
                          builder->beyond_samples, builder->beyond_events + gone.events);
    } else if (builder->beyond_events > 0) {
        plmi_builder_lose(builder, PLM_DIAG_LIMIT, builder->beyond_line,
                          "more than %s events (rule samples_max); %zu of them are not used", most.text,
                          builder->beyond_events);
    }
}

static void tell_hole(struct plm_dive_builder *builder, double gap_ms, const struct gone *gone)
{
    const struct plm_dive *dive = builder->dive;
    plmi_builder_lose(builder, PLM_DIAG_GAP, gone->line,
                      "%s s without samples at %s m, longer than %s min (rule gap_max_min); the record ends there, "
                      "in the water; %zu samples and %zu "
                      "events behind it are not used",
                      plmi_figure_short(gap_ms / 1000.0, 3).text,
                      plmi_figure(dive->samples[dive->sample_count - 1].depth_m, 1).text,
                      plmi_figure_short(builder->rules.gap_max_min, 1).text, gone->samples, gone->events);
}

/* From the surface into the water: the diver is taken to have been at the surface until sample i, which is reported. */
static bool wait_at_surface(struct plm_dive_builder *builder, size_t i, double gap_ms)
{
    const struct plm_dive *dive = builder->dive;
    if (!plmi_builder_surface_put(builder, i, dive->samples[i].time_ms, dive->samples[i - 1].setting)) {
        return false;
    }
    plmi_builder_tell(
        builder, PLM_LEVEL_NOTE, PLM_DIAG_GAP, dive->samples[i + 1].line,
        "%s s without samples before %s m, longer than %s min (rule gap_max_min); the surface is taken until then",
        plmi_figure_short(gap_ms / 1000.0, 3).text, plmi_figure(dive->samples[i + 1].depth_m, 1).text,
        plmi_figure_short(builder->rules.gap_max_min, 1).text);
    return true;
}

static bool end_at_gap(struct plm_dive_builder *builder)
{
    const struct plm_dive *dive = builder->dive;
    double most_ms = builder->rules.gap_max_min * 60e3;
    for (size_t i = 1; i < dive->sample_count; i++) {
        double gap_ms = (double)(dive->samples[i].time_ms - dive->samples[i - 1].time_ms);
        if (gap_ms <= most_ms) {
            continue;
        }
        if (in_water(builder, i - 1)) {
            struct gone gone = end_at(builder, dive->samples[i - 1].time_ms);
            tell_hole(builder, gap_ms, &gone);
        } else if (in_water(builder, i) && !wait_at_surface(builder, i, gap_ms)) {
            return false;
        }
    }
    return true;
}

/* What was recorded at the surface more than most_ms before the first sample in the water goes. */
static void begin_at(struct plm_dive_builder *builder, size_t first, int64_t most_ms)
{
    struct plm_dive *dive = builder->dive;
    size_t early = 0;
    while (early < first && dive->samples[first].time_ms - dive->samples[early].time_ms > most_ms) {
        early++;
    }
    if (early > 0) {
        plmi_builder_lose(builder, PLM_DIAG_LIMIT, dive->samples[0].line,
                          "the record begins more than %s h before the dive (rule dive_max_h); %zu samples at the "
                          "surface are not used",
                          plmi_figure_short(builder->rules.dive_max_h, 1).text, early);
        dive->sample_count -= early;
        memmove(dive->samples, dive->samples + early, dive->sample_count * sizeof *dive->samples);
    }
}

static void bound_time(struct plm_dive_builder *builder)
{
    const struct plm_dive *dive = builder->dive;
    int64_t most_ms = llround(builder->rules.dive_max_h * 3600e3);
    size_t first = 0;
    while (first < dive->sample_count && !in_water(builder, first)) {
        first++;
    }
    if (first == dive->sample_count) {
        return;
    }
    int64_t from_ms = dive->samples[first].time_ms, long_ms = dive->samples[dive->sample_count - 1].time_ms - from_ms;
    begin_at(builder, first, most_ms);
    if (long_ms > most_ms) {
        struct gone gone = end_at(builder, from_ms + most_ms);
        plmi_builder_lose(
            builder, PLM_DIAG_LIMIT, gone.line,
            "a record of %s h from the first sample in the water, longer than %s h (rule dive_max_h); it ends there, "
            "at %s m; %zu "
            "samples and %zu events behind it are not used",
            plmi_figure_short((double)long_ms / 3600e3, 1).text, plmi_figure_short(builder->rules.dive_max_h, 1).text,
            plmi_figure(dive->samples[dive->sample_count - 1].depth_m, 1).text, gone.samples, gone.events);
    }
}

bool plmi_builder_end(struct plm_dive_builder *builder)
{
    end_of_room(builder);
    bool done = end_at_gap(builder);
    bound_time(builder);
    return done;
}
