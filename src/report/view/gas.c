/*
 * The view's gas: density, narcotic depth, and each mix with its minutes and depths.
 * Must not compute densities; the trace has them.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <string.h>

#include "report/view/build.h"

/* A mix in a mode while minutes are being added up. */
struct stretch {
    enum plm_mode mode;
    uint32_t mix;
    struct plmi_view_mix view;
};

static struct stretch *stretch_find(struct stretch *list, size_t *count, const struct plm_setting *setting)
{
    for (size_t i = 0; i < *count; i++) {
        if (list[i].mode == setting->mode && list[i].mix == setting->mix) {
            return &list[i];
        }
    }
    struct stretch *one = &list[(*count)++];
    one->mode = setting->mode;
    one->mix = setting->mix;
    one->view.least_depth_m = (double)INFINITY;
    one->view.setpoint_low_bar = one->view.setpoint_high_bar = (double)NAN;
    return one;
}

static void stretch_add(struct stretch *one, const struct plm_sample *from, const struct plm_sample *to,
                        double setpoint_bar)
{
    struct plmi_view_mix *view = &one->view;
    view->minutes += (double)(to->time_ms - from->time_ms) / 60e3;
    view->least_depth_m = fmin(view->least_depth_m, fmin(from->depth_m, to->depth_m));
    view->most_depth_m = fmax(view->most_depth_m, fmax(from->depth_m, to->depth_m));
    if (one->mode != PLM_MODE_OPEN) {
        view->setpoint_low_bar = fmin(view->setpoint_low_bar, setpoint_bar);
        view->setpoint_high_bar = fmax(view->setpoint_high_bar, setpoint_bar);
    }
}

static void stretch_name(struct plmi_view *view, struct stretch *one, const struct plm_dive_mix *mix)
{
    char name[32];
    one->view.mode = plm_mode_text(one->mode);
    one->view.name = plmi_view_keep(view, plm_mix_name(&mix->mix, name, sizeof name));
    one->view.o2_frac = mix->mix.o2_frac;
    one->view.he_frac = mix->mix.he_frac;
}

/* Every mix breathed, in the order of first use. */
static void mixes_add(struct plmi_view *view, const struct plm_dive *dive)
{
    size_t sample_count, setting_count, mix_count, count = 0;
    const struct plm_sample *samples = plm_dive_samples(dive, &sample_count);
    const struct plm_setting *settings = plm_dive_settings(dive, &setting_count);
    const struct plm_dive_mix *mixes = plm_dive_mixes(dive, &mix_count);
    struct stretch *list = plmi_view_room(view, setting_count, sizeof *list);
    view->mixes = plmi_view_room(view, setting_count, sizeof *view->mixes);
    if (view->failed) {
        return;
    }
    for (size_t i = 0; i + 1 < sample_count; i++) {
        const struct plm_setting *setting = &settings[samples[i].setting];
        if (samples[i + 1].time_ms > samples[i].time_ms) {
            stretch_add(stretch_find(list, &count, setting), &samples[i], &samples[i + 1], setting->setpoint_bar);
        }
    }
    for (size_t i = 0; i < count; i++) {
        stretch_name(view, &list[i], &mixes[list[i].mix]);
        view->mixes[i] = list[i].view;
    }
    view->mix_count = count;
}

void plmi_view_add_gas(struct plmi_view *view, const struct plmi_view_from *from)
{
    const enum plmi_view_section gas = PLMI_VIEW_GAS;
    const struct plm_trace_summary *summary = from->summary;
    plmi_view_add_number(view, gas, "max_density_g_l", "greatest density", summary->max_density_g_l, 2, "g/L");
    plmi_view_add_duration(view, gas, "max_density_at_s", "at", summary->max_density_at_s);
    plmi_view_add_number(view, gas, "density_note_g_l", "first density limit", from->rules->density_note_g_l, 1, "g/L");
    plmi_view_add_number(view, gas, "density_note_min", "denser than the first limit", summary->density_note_min, 1,
                         "min");
    plmi_view_add_number(view, gas, "density_caution_g_l", "second density limit", from->rules->density_caution_g_l, 1,
                         "g/L");
    plmi_view_add_number(view, gas, "density_caution_min", "denser than the second limit", summary->density_caution_min,
                         1, "min");
    plmi_view_add_number(view, gas, "max_end_m", "greatest equivalent narcotic depth", summary->max_end_m, 1, "m");
    mixes_add(view, from->debriefed->dive);
}
