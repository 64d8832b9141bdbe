/*
 * Waypoints of a dive as UDDF: each sample with what changes there and the events of its moment.
 * Must not write a set point or a mix that is in force already.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "base/number.h"
#include "export/uddf.h"

/* What readers keep of one waypoint. */
#define EVENTS_MAX 32

/* The way along the samples. mix: id of the one in force, NULL for air that was only assumed. */
struct way {
    struct plm_export *export;
    struct plmi_text *out, *aside;
    const struct plm_dive *dive;
    const struct plm_setting *settings;
    const struct plm_dive_mix *mixes;
    const struct plm_event *events;
    size_t event_count, event; /* event: the next */
    bool started;
    uint32_t setting; /* index of the one in force, once started */
    enum plm_mode mode;
    const char *mix;
    double setpoint_bar;
    uint32_t assumed;
};

const char *plmi_export_uddf_mode(enum plm_mode mode)
{
    static const char *const words[] = {"opencircuit", "closedcircuit", "semiclosedcircuit"};
    return words[mode];
}

/* An event as an element of our own. */
static void aside_add(struct plmi_text *out, const struct plm_event *event)
{
    plmi_text_puts(out, "<recordedevent time_s=\"");
    plmi_export_seconds(out, event->time_ms);
    plmi_text_printf(out, "\" kind=\"%s\"", plm_event_kind_text(event->kind));
    plmi_export_uddf_number_attribute(out, "value", event->value);
    plmi_export_uddf_number_attribute(out, "value2", event->value2);
    if (event->text[0] != '\0') {
        plmi_export_uddf_attribute(out, "text", event->text);
    }
    plmi_text_puts(out, "/>\n");
}

/* Events before a moment that no sample has. */
static void events_pass(struct way *way, int64_t time_ms)
{
    for (; way->event < way->event_count && way->events[way->event].time_ms < time_ms; way->event++) {
        if (way->aside != NULL) {
            aside_add(way->aside, &way->events[way->event]);
        }
    }
}

static void events_add(struct way *way, int64_t time_ms)
{
    size_t texts = 0;
    int added = 0;
    for (; way->event < way->event_count && way->events[way->event].time_ms == time_ms; way->event++) {
        const struct plm_event *event = &way->events[way->event];
        if (added < EVENTS_MAX && plmi_export_uddf_event(way->export, way->out, event, &texts)) {
            added++;
        } else if (way->aside != NULL) {
            aside_add(way->aside, event);
        }
    }
}

static bool same_number(double a, double b)
{
    return (isnan(a) && isnan(b)) || a == b;
}

/* The mix of a setting, by its id; NULL while air is only assumed. */
static const char *mix_of(const struct way *way, const struct plm_setting *setting)
{
    if (way->mix == NULL && setting->mix == way->assumed) {
        return NULL;
    }
    return plmi_export_uddf_mix(way->export, &way->mixes[setting->mix]);
}

/* What the plan says with its own attributes is in force before its first waypoint. */
static void way_start(struct way *way, const struct plm_setting *first, bool plan)
{
    way->mode = plan ? first->mode : PLM_MODE_OPEN;
    way->mix = plan ? mix_of(way, first) : NULL;
    way->started = plan;
    way->setting = UINT32_MAX;
}

static void settings_add(struct way *way, uint32_t index)
{
    const struct plm_setting *setting = &way->settings[index];
    if (way->started && index == way->setting) {
        return;
    }
    bool mode_stated = !way->started && plm_dive_info_get(way->dive)->mode_known;
    const char *mix = mix_of(way, setting);
    if (mode_stated || setting->mode != way->mode) {
        plmi_text_printf(way->out, "<divemode type=\"%s\"/>", plmi_export_uddf_mode(setting->mode));
    }
    if (mix != way->mix) {
        plmi_text_printf(way->out, "<switchmix ref=\"%s\"/>", mix);
    }
    if (!same_number(setting->setpoint_bar, way->setpoint_bar)) {
        plmi_text_puts(way->out, "<setpo2 setby=\"computer\">");
        plmi_number_short_scaled(way->out, isnan(setting->setpoint_bar) ? 0 : setting->setpoint_bar, 5);
        plmi_text_puts(way->out, "</setpo2>");
    }
    way->started = true;
    way->setting = index;
    way->mode = setting->mode;
    way->mix = mix;
    way->setpoint_bar = setting->setpoint_bar;
}

static void sample_add(struct way *way, const struct plm_sample *sample)
{
    struct plmi_text *out = way->out;
    plmi_text_puts(out, "<waypoint>");
    plmi_export_uddf_number(out, "depth", sample->depth_m, 0);
    plmi_text_puts(out, "<divetime>");
    plmi_export_seconds(out, sample->time_ms);
    plmi_text_puts(out, "</divetime>");
    if (!isnan(sample->temp_c)) {
        plmi_text_puts(out, "<temperature>");
        plmi_export_temp(out, sample->temp_c, -273.15);
        plmi_text_puts(out, "</temperature>");
    }
    settings_add(way, sample->setting);
    plmi_export_uddf_number(out, "calculatedpo2", sample->po2_bar, 5);
    for (int cell = 0; cell < PLM_CELLS; cell++) {
        if (!isnan(sample->cell_bar[cell])) {
            plmi_text_printf(out, "<measuredpo2 ref=\"cell-%d\">", cell + 1);
            plmi_number_short_scaled(out, sample->cell_bar[cell], 5);
            plmi_text_puts(out, "</measuredpo2>");
        }
    }
    events_add(way, sample->time_ms);
    plmi_text_puts(out, "</waypoint>\n");
}

void plmi_export_uddf_waypoints(struct plm_export *export, struct plmi_text *out, const struct plm_dive *dive,
                                struct plmi_text *aside)
{
    size_t sample_count, count;
    const struct plm_sample *samples = plm_dive_samples(dive, &sample_count);
    struct way way = {.export = export,
                      .out = out,
                      .aside = aside,
                      .dive = dive,
                      .setpoint_bar = (double)NAN,
                      .assumed = plmi_export_assumed_mix(dive)};
    way.settings = plm_dive_settings(dive, &count);
    way.mixes = plm_dive_mixes(dive, &count);
    way.events = plm_dive_events(dive, &way.event_count);
    way_start(&way, &way.settings[samples[0].setting], aside == NULL);
    for (size_t i = 0; i < sample_count; i++) {
        events_pass(&way, samples[i].time_ms);
        sample_add(&way, &samples[i]);
    }
    events_pass(&way, INT64_MAX);
}
