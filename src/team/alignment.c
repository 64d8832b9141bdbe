/*
 * Lays one record over another and judges whether both are one diver's one dive. Reads profiles only.
 * SPDX-License-Identifier: MIT
 */
#include <plimsoll/alignment.h>

#include <math.h>

#include "base/diags.h"
#include "team/align.h"

/* What one diver's recorders may differ by after the fit [m], and by their own scale and offset. */
#define APART_MEDIAN_M 0.5
#define APART_P90_M    1.5
#define SCALE_OFF      0.03
#define SHIFT_M        1.5
#define LIKENESS_SHARE 0.5
/* Least share of the shorter record's wet time that both must cover. */
#define OVERLAP_FRAC 0.4

static double wet_s(const struct plmi_series *series)
{
    double sum = 0.0;
    for (size_t i = 1; i < series->count; i++) {
        if (series->depth_m[i] >= 1.0) {
            sum += fmin(series->time_s[i] - series->time_s[i - 1], series->gap_s);
        }
    }
    return sum;
}

static bool one_dive(const struct plm_alignment *found, double shorter_wet_s)
{
    if (!(found->overlap_s > 0.0) || found->overlap_s < OVERLAP_FRAC * shorter_wet_s) {
        return false;
    }
    if (!(found->apart_median_m <= APART_MEDIAN_M) || !(found->apart_p90_m <= APART_P90_M)) {
        return false;
    }
    if (fabs(found->depth_scale - 1.0) > SCALE_OFF || fabs(found->depth_offset_m) > SHIFT_M) {
        return false;
    }
    return isnan(found->likeness) || found->likeness >= LIKENESS_SHARE * found->likeness_expected;
}

/* The best fit over all candidate offsets. Returns: false without memory. */
static bool best_fit(struct plmi_fit *best, const struct plmi_series *a, const struct plmi_series *b)
{
    double lags_s[PLMI_LAGS];
    int count = plmi_align_lags(lags_s, a, b);
    *best = (struct plmi_fit){.scale = 1.0, .cost = INFINITY};
    for (int i = 0; i < count; i++) {
        struct plmi_fit fit;
        plmi_align_fit(&fit, lags_s[i], a, b);
        if (fit.cost < best->cost) {
            *best = fit;
        }
    }
    return count >= 0;
}

static void clock_offset(struct plm_alignment *out, const struct plm_dive *a, const struct plm_dive *b)
{
    const struct plm_stamp *sa = &plm_dive_info_get(a)->start, *sb = &plm_dive_info_get(b)->start;
    out->clock_known = sa->known && sb->known && sa->has_clock && sb->has_clock;
    out->clock_offset_s = out->record_offset_s;
    if (!out->clock_known) {
        return;
    }
    int64_t apart_ms = sa->local_ms - sb->local_ms;
    if (sa->has_zone && sb->has_zone) {
        apart_ms -= (int64_t)(sa->offset_min - sb->offset_min) * 60000;
    }
    out->clock_offset_s += (double)apart_ms / 1000.0;
}

bool plmi_align_series(struct plm_alignment *out, const struct plmi_series *a, const struct plmi_series *b)
{
    struct plmi_fit fit;
    struct plmi_likeness like;
    *out = (struct plm_alignment){.depth_scale = 1.0,
                                  .apart_median_m = (double)NAN,
                                  .apart_p90_m = (double)NAN,
                                  .likeness = (double)NAN,
                                  .likeness_expected = (double)NAN};
    if (!best_fit(&fit, a, b)) {
        return false;
    }
    if (!isfinite(fit.cost)) {
        return true;
    }
    if (!plmi_align_likeness(&like, &fit, a, b)) {
        return false;
    }
    out->record_offset_s = fit.offset_s;
    out->clock_drift_ppm = fit.drift * 1e6;
    out->depth_scale = fit.scale;
    out->depth_offset_m = fit.shift_m;
    out->overlap_s = like.overlap_s;
    out->apart_median_m = like.apart_median_m;
    out->apart_p90_m = like.apart_p90_m;
    out->likeness = like.correlation;
    out->likeness_expected = like.expected;
    out->same_dive = one_dive(out, fmin(wet_s(a), wet_s(b)));
    return true;
}

enum plm_status plm_alignment_find(struct plm_alignment *out, const struct plm_dive *a, const struct plm_dive *b,
                                   const struct plm_diag_sink *sink)
{
    struct plmi_series series_a, series_b;
    bool ready_a = plmi_series_init(&series_a, a), ready_b = plmi_series_init(&series_b, b);
    bool ok = ready_a && ready_b && plmi_align_series(out, &series_a, &series_b);
    plmi_series_free(&series_a);
    plmi_series_free(&series_b);
    if (!ok) {
        const struct plmi_diags diags = {sink, plm_dive_info_get(a)->file};
        return plmi_diags_no_memory(&diags, 0, "to compare two records");
    }
    clock_offset(out, a, b);
    return PLM_STATUS_OK;
}
