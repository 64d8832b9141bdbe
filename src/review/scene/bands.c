/*
 * Sums up what a plan has one breathe, by phase and depth band.
 * Must not judge a dive.
 * SPDX-License-Identifier: MIT
 */
#include "review/scene/bands.h"

#include <math.h>
#include <stdlib.h>

static size_t band_of(const struct plmi_review_bands *bands, double depth_m)
{
    double band = floor(fmax(0, depth_m) / bands->step_m + 0.5);
    return band >= (double)bands->bands ? bands->bands - 1 : (size_t)band;
}

static double *cell(const struct plmi_review_bands *bands, bool ascent, size_t band)
{
    return bands->seconds + ((ascent ? bands->bands : 0) + band) * bands->settings;
}

/* Spreads one interval of the plan over the bands that it crosses. */
static void add(struct plmi_review_bands *bands, size_t point, bool ascent)
{
    const struct plm_point *a = &bands->plan->points[point - 1], *b = &bands->plan->points[point];
    size_t setting = bands->plan->samples[point - 1].setting;
    size_t low = band_of(bands, fmin(a->depth_m, b->depth_m)), high = band_of(bands, fmax(a->depth_m, b->depth_m));
    double share_s = (double)(b->time_ms - a->time_ms) / 1000.0 / (double)(high - low + 1);
    for (size_t band = low; band <= high; band++) {
        cell(bands, ascent, band)[setting] += share_s;
    }
}

enum plm_status plmi_review_bands_find(struct plmi_review_bands *out, const struct plm_review_scene *plan,
                                       const struct plmi_review_phases *phases)
{
    *out = (struct plmi_review_bands){
        .plan = plan, .step_m = plan->rules->stop_step_m, .accept_s = plan->rules->plan_time_s};
    plm_dive_settings(plan->input->dive, &out->settings);
    out->bands = (size_t)(plan->summary->max_depth_m / out->step_m) + 2;
    out->seconds = calloc(2 * out->bands * out->settings, sizeof *out->seconds);
    if (out->seconds == NULL) {
        return PLM_STATUS_MEMORY;
    }
    for (size_t i = 1; i < plan->count; i++) {
        add(out, i, i > phases->left);
    }
    return PLM_STATUS_OK;
}

void plmi_review_bands_free(struct plmi_review_bands *bands)
{
    free(bands->seconds);
    bands->seconds = NULL;
}

/* The setting longest in a band; its seconds 0 where the plan never was there. */
static size_t longest(const struct plmi_review_bands *bands, bool ascent, size_t band)
{
    const double *seconds = cell(bands, ascent, band);
    size_t best = 0;
    for (size_t i = 1; i < bands->settings; i++) {
        if (seconds[i] > seconds[best]) {
            best = i;
        }
    }
    return best;
}

/* The nearest band that the plan met in this phase; bands->bands where it met none. */
static size_t nearest(const struct plmi_review_bands *bands, bool ascent, size_t band)
{
    for (size_t away = 0; away < bands->bands; away++) {
        if (band >= away && cell(bands, ascent, band - away)[longest(bands, ascent, band - away)] > 0) {
            return band - away;
        }
        if (band + away < bands->bands && cell(bands, ascent, band + away)[longest(bands, ascent, band + away)] > 0) {
            return band + away;
        }
    }
    return bands->bands;
}

const struct plm_setting *plmi_review_bands_unlike(const struct plmi_review_bands *bands,
                                                   const struct plm_review_scene *scene, size_t point, bool ascent,
                                                   plmi_review_fits *fits)
{
    size_t count = 0, band = nearest(bands, ascent, band_of(bands, scene->points[point].depth_m));
    if (band == bands->bands) {
        return NULL;
    }
    const struct plm_setting *settings = plm_dive_settings(bands->plan->input->dive, &count);
    size_t most = longest(bands, ascent, band);
    const double *seconds = cell(bands, ascent, band);
    for (size_t i = 0; i < bands->settings; i++) {
        if ((i == most || seconds[i] >= bands->accept_s) && fits(bands, scene, point, &settings[i])) {
            return NULL;
        }
    }
    return &settings[most];
}
