/*
 * Where a record ends that cannot be followed to its own end. Must not invent what the diver did behind it.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "base/figure.h"
#include "dive/recording.h"

static bool in_water(const struct plm_dive_builder *builder, size_t i)
{
    return builder->dive->samples[i].depth_m > builder->rules.surface_depth_m;
}

/* Takes away what is later than time_ms; the samples and events that were. */
struct gone { size_t samples, events; uint32_t line; };

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

bool plmi_builder_has_room(struct plm_dive_builder *builder, size_t count, size_t *beyond, uint32_t line)
{
    if (builder->copied || (double)count < builder->rules.samples_max) {
        return true;
    }
    if (builder->beyond_samples + builder->beyond_events == 0) {
        builder->beyond_line = line;
    }
    ++*beyond;
    return false;
}

static void end_of_room(struct plm_dive_builder *builder)
{
    const struct plm_dive *dive = builder->dive;
    const struct plmi_figure most = plmi_figure_short(builder->rules.samples_max, 0);
    if (builder->beyond_samples > 0) {
        struct gone gone = end_at(builder, dive->samples[dive->sample_count - 1].time_ms);
        plmi_builder_report(builder, PLM_LEVEL_WARNING, PLM_DIAG_LIMIT, builder->beyond_line,
                            "more than %s samples or events (rule samples_max); the record ends there, at %s m; %zu samples and %zu events behind it are "
                            "not used", most.text, plmi_figure(dive->samples[dive->sample_count - 1].depth_m, 1).text, builder->beyond_samples,
                            builder->beyond_events + gone.events);
    } else if (builder->beyond_events > 0) {
        plmi_builder_report(builder, PLM_LEVEL_WARNING, PLM_DIAG_LIMIT, builder->beyond_line,
                            "more than %s events (rule samples_max); %zu of them are not used", most.text, builder->beyond_events);
    }
}

static void end_at_gap(struct plm_dive_builder *builder)
{
    const struct plm_dive *dive = builder->dive;
    double most_ms = builder->rules.gap_max_min * 60e3;
    for (size_t i = 1; i < dive->sample_count; i++) {
        double gap_ms = (double)(dive->samples[i].time_ms - dive->samples[i - 1].time_ms);
        if (gap_ms > most_ms && in_water(builder, i - 1)) {
            struct gone gone = end_at(builder, dive->samples[i - 1].time_ms);
            plmi_builder_report(builder, PLM_LEVEL_WARNING, PLM_DIAG_GAP, gone.line,
                                "%s s without samples at %s m, longer than %s min (rule gap_max_min); the record ends there, in the water; %zu samples "
                                "and %zu events behind it are not used", plmi_figure_short(gap_ms / 1000.0, 3).text,
                                plmi_figure(dive->samples[dive->sample_count - 1].depth_m, 1).text, plmi_figure_short(builder->rules.gap_max_min, 1).text,
                                gone.samples, gone.events);
        }
    }
}

static void end_of_time(struct plm_dive_builder *builder)
{
    const struct plm_dive *dive = builder->dive;
    size_t first = 0, last = dive->sample_count;
    while (first < last && !in_water(builder, first)) {
        first++;
    }
    while (last > first && !in_water(builder, last - 1)) {
        last--;
    }
    if (first == last) {
        return;
    }
    int64_t from_ms = dive->samples[first].time_ms, most_ms = llround(builder->rules.dive_max_h * 3600e3);
    int64_t long_ms = dive->samples[last - 1].time_ms - from_ms;
    if (long_ms > most_ms) {
        struct gone gone = end_at(builder, from_ms + most_ms);
        plmi_builder_report(builder, PLM_LEVEL_WARNING, PLM_DIAG_LIMIT, gone.line,
                            "a dive of %s h in the water, longer than %s h (rule dive_max_h); the record ends there, at %s m; %zu samples and %zu events "
                            "behind it are not used", plmi_figure_short((double)long_ms / 3600e3, 1).text,
                            plmi_figure_short(builder->rules.dive_max_h, 1).text, plmi_figure(dive->samples[dive->sample_count - 1].depth_m, 1).text,
                            gone.samples, gone.events);
    }
}

void plmi_builder_end(struct plm_dive_builder *builder)
{
    end_of_room(builder);
    end_at_gap(builder);
    end_of_time(builder);
}
