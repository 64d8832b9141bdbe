/*
 * Takes a recording piece by piece and puts right what one piece alone shows to be wrong.
 * Checks of the whole dive are in builder_finish.c.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <string.h>

#include "base/figure.h"
#include "dive/builder_base.h"

/* [m] The highest surface pressure that can be (1.2 bar) less no pressure at all, in fresh water: nothing reads above
 * it. */
#define DEPTH_NO_PRESSURE_M (-12.3)
/* No loop holds more oxygen than this [bar]; beyond it the value is a fault of the record. */
#define PO2_POSSIBLE_BAR      10.0
#define SETPOINT_POSSIBLE_BAR 3.0
/* No record is longer than a thousand years [ms]; and differences of such times are never too large. */
#define TIME_POSSIBLE_MS INT64_C(31556952000000)

void plm_dive_builder_mode(struct plm_dive_builder *builder, enum plm_mode mode, uint32_t line)
{
    (void)line;
    builder->dive->info.mode_known = builder->dive->info.mode_known || !builder->mode_assumed || mode != PLM_MODE_OPEN;
    if (builder->now.mode != mode) {
        builder->now.mode = mode;
        builder->setting_fresh = true;
    }
}

void plm_dive_builder_switch(struct plm_dive_builder *builder, uint32_t mix, uint32_t line)
{
    (void)line;
    if (builder->now.mix != mix) {
        builder->now.mix = mix;
        builder->setting_fresh = true;
    }
}

void plm_dive_builder_setpoint(struct plm_dive_builder *builder, double setpoint_bar, uint32_t line)
{
    double was_bar = builder->now.setpoint_bar;
    if (setpoint_bar < 0 || setpoint_bar > SETPOINT_POSSIBLE_BAR) {
        plmi_builder_lose(builder, PLM_DIAG_SETPOINT, line,
                          "a set point of %s bar cannot be; the one before stays in force",
                          plmi_figure(setpoint_bar, 2).text);
        return;
    }
    if (setpoint_bar == 0) {
        setpoint_bar = (double)NAN;
    }
    if (was_bar != setpoint_bar && !(isnan(was_bar) && isnan(setpoint_bar))) {
        builder->now.setpoint_bar = setpoint_bar;
        builder->setting_fresh = true;
    }
}

/* The mix of a sample before any mix was named: air. */
static enum plm_status assume_air(struct plm_dive_builder *builder, uint32_t line)
{
    const double air_o2_frac = 0.21;
    return plm_dive_builder_mix_find(builder, air_o2_frac, 0, line, &builder->now.mix);
}

/* A mix breathed on open circuit is carried for it; one on a closed loop is its diluent. */
static void note_use(struct plm_dive_mix *mix, enum plm_mode mode)
{
    if (mode == PLM_MODE_OPEN) {
        mix->carried = true;
    } else if (mode == PLM_MODE_CLOSED && mix->use == PLM_MIX_USE_ANY) {
        mix->use = PLM_MIX_USE_DILUENT;
    }
}

/* Whether the mix in force is one that was stated. */
static bool gas_stated(const struct plm_dive_builder *builder)
{
    return builder->now.mix != PLMI_NO_MIX && builder->now.mix != builder->assumed_mix;
}

/* Puts the settings in force behind the others and gives their index. */
static enum plm_status setting_index(struct plm_dive_builder *builder, uint32_t line, uint32_t *index)
{
    struct plm_dive *dive = builder->dive;
    if (builder->now.mix == PLMI_NO_MIX) {
        enum plm_status status = assume_air(builder, line);
        if (status != PLM_STATUS_OK) {
            return status;
        }
    }
    if (builder->setting_fresh || dive->setting_count == 0) {
        if (!plmi_array_grow((void **)&dive->settings, &dive->setting_capacity, dive->setting_count,
                             sizeof *dive->settings)) {
            return plmi_builder_no_memory(builder);
        }
        dive->settings[dive->setting_count++] = builder->now;
        builder->setting_fresh = false;
        note_use(&dive->mixes[builder->now.mix], builder->now.mode);
    }
    *index = (uint32_t)(dive->setting_count - 1);
    return PLM_STATUS_OK;
}

/* Whether a sample can be taken; tells why not. */
static bool sample_usable(struct plm_dive_builder *builder, const struct plm_sample *sample)
{
    const struct plm_dive *dive = builder->dive;
    if (!isfinite(sample->depth_m)) {
        plmi_builder_lose(builder, PLM_DIAG_DEPTH_MISSING, sample->line, "no depth; sample dropped");
        return false;
    }
    if (sample->time_ms > TIME_POSSIBLE_MS || sample->time_ms < -TIME_POSSIBLE_MS) {
        plmi_builder_lose(builder, PLM_DIAG_RANGE, sample->line, "a time of %s s cannot be; sample dropped",
                          plmi_figure_short((double)sample->time_ms / 1000.0, 3).text);
        return false;
    }
    if (sample->depth_m > builder->rules.depth_max_m) {
        plmi_builder_odd(builder, sample, true);
        plmi_builder_lose(builder, PLM_DIAG_RANGE, sample->line,
                          "a depth of %s m is beyond %s m (rule depth_max_m); sample dropped",
                          plmi_figure(sample->depth_m, 1).text, plmi_figure_short(builder->rules.depth_max_m, 1).text);
        return false;
    }
    if (sample->depth_m < DEPTH_NO_PRESSURE_M) {
        plmi_builder_odd(builder, sample, true);
        plmi_builder_lose(builder, PLM_DIAG_DEPTH_NEGATIVE, sample->line,
                          "a depth of %s m is higher than no pressure at all would read; sample dropped",
                          plmi_figure(sample->depth_m, 1).text);
        return false;
    }
    if (dive->sample_count > 0) {
        int64_t back_ms = dive->samples[dive->sample_count - 1].time_ms - sample->time_ms;
        if (back_ms > 0) {
            plmi_builder_lose(builder, PLM_DIAG_TIME_ORDER, sample->line, "time goes back by %s s; sample dropped",
                              plmi_figure_short((double)back_ms / 1000.0, 3).text);
            return false;
        }
    }
    return true;
}

/* A PO2 that can be, or NaN; tells what is dropped. */
static double checked_po2(struct plm_dive_builder *builder, double po2_bar, uint32_t line)
{
    if (isnan(po2_bar) || (po2_bar >= 0 && po2_bar <= PO2_POSSIBLE_BAR)) {
        return po2_bar;
    }
    plmi_builder_lose(builder, PLM_DIAG_PO2, line, "an oxygen pressure of %s bar cannot be; value dropped",
                      plmi_figure(po2_bar, 2).text);
    return (double)NAN;
}

static void sample_repair(struct plm_dive_builder *builder, struct plm_sample *sample)
{
    sample->po2_bar = checked_po2(builder, sample->po2_bar, sample->line);
    for (size_t i = 0; i < PLM_CELLS; i++) {
        sample->cell_bar[i] = checked_po2(builder, sample->cell_bar[i], sample->line);
    }
    if (!isfinite(sample->temp_c)) {
        sample->temp_c = (double)NAN;
    }
}

static double known_or(double value, double otherwise)
{
    return isnan(value) ? otherwise : value;
}

/* A second sample of the same moment and depth only adds what the first lacks. */
static void sample_merge(struct plm_sample *into, const struct plm_sample *more)
{
    into->temp_c = known_or(more->temp_c, into->temp_c);
    into->po2_bar = known_or(more->po2_bar, into->po2_bar);
    for (size_t i = 0; i < PLM_CELLS; i++) {
        into->cell_bar[i] = known_or(more->cell_bar[i], into->cell_bar[i]);
    }
    into->setting = more->setting;
}

/* Whether there is room for one more of so many samples or events, by the rule samples_max; an edited copy always has
 * it. */
static bool has_room(struct plm_dive_builder *builder, size_t count, size_t *beyond, uint32_t line)
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

enum plm_status plm_dive_builder_sample(struct plm_dive_builder *builder, const struct plm_sample *sample)
{
    struct plm_dive *dive = builder->dive;
    if (!sample_usable(builder, sample)) {
        return PLM_STATUS_OK;
    }
    if (!has_room(builder, dive->sample_count, &builder->beyond_samples, sample->line)) {
        return PLM_STATUS_OK;
    }
    struct plm_sample now = *sample;
    bool stated = gas_stated(builder);
    sample_repair(builder, &now);
    enum plm_status status = setting_index(builder, now.line, &now.setting);
    if (status != PLM_STATUS_OK) {
        return status;
    }
    if (dive->sample_count > 0) {
        struct plm_sample *last = &dive->samples[dive->sample_count - 1];
        if (last->time_ms == now.time_ms && last->depth_m == now.depth_m) {
            sample_merge(last, &now);
            dive->info.gas_known = dive->sample_count == 1 ? stated : dive->info.gas_known;
            return PLM_STATUS_OK;
        }
    }
    if (!plmi_array_grow((void **)&dive->samples, &dive->sample_capacity, dive->sample_count, sizeof *dive->samples)) {
        return plmi_builder_no_memory(builder);
    }
    dive->info.gas_known = dive->sample_count == 0 ? stated : dive->info.gas_known;
    dive->samples[dive->sample_count++] = now;
    return PLM_STATUS_OK;
}

/* The text of one of the last events again, where it is the same: names of tanks and cells repeat. */
static const char *event_text(struct plm_dive_builder *builder, const char *text)
{
    const size_t look_back = 8;
    const struct plm_dive *dive = builder->dive;
    if (text == NULL || text[0] == '\0') {
        return "";
    }
    for (size_t i = dive->event_count; i > 0 && dive->event_count - i < look_back; i--) {
        if (strcmp(dive->events[i - 1].text, text) == 0) {
            return dive->events[i - 1].text;
        }
    }
    return plm_dive_builder_text(builder, text);
}

enum plm_status plm_dive_builder_event(struct plm_dive_builder *builder, const struct plm_event *event)
{
    struct plm_dive *dive = builder->dive;
    if (!has_room(builder, dive->event_count, &builder->beyond_events, event->line)) {
        return PLM_STATUS_OK;
    }
    const char *text = event_text(builder, event->text);
    if (text == NULL ||
        !plmi_array_grow((void **)&dive->events, &dive->event_capacity, dive->event_count, sizeof *dive->events)) {
        return plmi_builder_no_memory(builder);
    }
    dive->events[dive->event_count] = *event;
    dive->events[dive->event_count++].text = text;
    return PLM_STATUS_OK;
}
