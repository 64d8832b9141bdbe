/*
 * How far two recordings are the same.
 * Must not replay.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "replay/edited_replay.h"

/* Equal, or both unknown. */
static bool same(double a, double b)
{
    return a == b || (isnan(a) && isnan(b));
}

static bool same_setting(const struct plm_setting *a, const struct plm_setting *b)
{
    return a->mode == b->mode && a->mix == b->mix && same(a->setpoint_bar, b->setpoint_bar);
}

static bool same_sample(const struct plm_sample *a, const struct plm_sample *b)
{
    bool cells = true;
    for (int i = 0; i < PLM_CELLS; i++) {
        cells = cells && same(a->cell_bar[i], b->cell_bar[i]);
    }
    return cells && a->time_ms == b->time_ms && a->depth_m == b->depth_m && a->line == b->line &&
           same(a->po2_bar, b->po2_bar);
}

static bool is_measured(const struct plm_sample *sample)
{
    return !isnan(sample->po2_bar) || !isnan(plmi_cells_median(sample->cell_bar));
}

static bool is_open(const struct plmi_recording *recording, size_t i)
{
    return recording->settings[recording->samples[i].setting].mode == PLM_MODE_OPEN;
}

/* No sample of the recording is measured: nothing between samples hangs on what follows. */
static bool none_measured(const struct plmi_recording *recording)
{
    for (size_t i = 0; i < recording->count; i++) {
        if (is_measured(&recording->samples[i])) {
            return false;
        }
    }
    return true;
}

size_t plmi_recordings_part(const struct plmi_recording *a, const struct plmi_recording *b)
{
    size_t count = a->count < b->count ? a->count : b->count, alike = 0;
    while (alike < count && same_sample(&a->samples[alike], &b->samples[alike]) &&
           same_setting(&a->settings[a->samples[alike].setting], &b->settings[b->samples[alike].setting])) {
        alike++;
    }
    if (alike == 0 || (none_measured(a) && none_measured(b))) {
        return alike > 0 ? alike - 1 : 0;
    }
    size_t last = alike - 1;
    while (last > 0 && !is_open(a, last) && !is_measured(&a->samples[last])) {
        last--;
    }
    return last;
}
