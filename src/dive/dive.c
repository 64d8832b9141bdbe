/*
 * The frozen dive: what others may look at. Must not change anything.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "dive/recording.h"
#include "dive/surface.h"

const struct plm_dive_info *plm_dive_info_get(const struct plm_dive *dive)
{
    return &dive->info;
}

const struct plm_sample *plm_dive_samples(const struct plm_dive *dive, size_t *count)
{
    *count = dive->sample_count;
    return dive->samples;
}

const struct plm_setting *plm_dive_settings(const struct plm_dive *dive, size_t *count)
{
    *count = dive->setting_count;
    return dive->settings;
}

const struct plm_dive_mix *plm_dive_mixes(const struct plm_dive *dive, size_t *count)
{
    *count = dive->mix_count;
    return dive->mixes;
}

const struct plm_event *plm_dive_events(const struct plm_dive *dive, size_t *count)
{
    *count = dive->event_count;
    return dive->events;
}

const struct plm_dive *plm_dive_plan(const struct plm_dive *dive)
{
    return dive->plan;
}

void plm_dive_wet(const struct plm_dive *dive, const struct plm_rules *rules, int64_t *from_ms, int64_t *to_ms)
{
    struct plmi_wet wet = plmi_wet_find(dive->samples, dive->sample_count, rules);
    *from_ms = dive->samples[wet.from].time_ms;
    *to_ms = dive->samples[wet.to].time_ms;
}

double plm_dive_max_depth_m(const struct plm_dive *dive)
{
    double most_m = 0.0;
    for (size_t i = 0; i < dive->sample_count; i++) {
        most_m = fmax(most_m, dive->samples[i].depth_m);
    }
    return most_m;
}

void plm_dive_free(struct plm_dive *dive)
{
    if (dive == NULL) {
        return;
    }
    /* A plan holds no plan of its own, so this goes one level deep. */
    plm_dive_free(dive->plan);
    free(dive->samples);
    free(dive->settings);
    free(dive->mixes);
    free(dive->events);
    plmi_arena_free(&dive->arena);
    free(dive);
}

static const char *const EVENT_WORDS[PLM_EVENT_COUNT] = {
    [PLM_EVENT_ALARM] = "alarm",
    [PLM_EVENT_MARKER] = "marker",
    [PLM_EVENT_HEADING] = "heading",
    [PLM_EVENT_STOP] = "stop",
    [PLM_EVENT_TANK_PRESSURE] = "tank-pressure",
    [PLM_EVENT_CNS] = "cns",
    [PLM_EVENT_OTU] = "otu",
    [PLM_EVENT_GRADIENT] = "gradient",
    [PLM_EVENT_NO_STOP] = "no-stop",
    [PLM_EVENT_SETPOINT] = "set-point",
    [PLM_EVENT_NOTE] = "note",
    [PLM_EVENT_PULSE] = "pulse",
    [PLM_EVENT_BATTERY] = "battery",
};

const char *plm_event_kind_text(enum plm_event_kind kind)
{
    return kind < PLM_EVENT_COUNT ? EVENT_WORDS[kind] : "note";
}

bool plm_event_kind_find(const char *word, enum plm_event_kind *kind)
{
    for (int i = 0; i < PLM_EVENT_COUNT; i++) {
        if (strcmp(EVENT_WORDS[i], word) == 0) {
            *kind = (enum plm_event_kind)i;
            return true;
        }
    }
    return false;
}
