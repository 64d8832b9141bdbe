/*
 * Gathers the curves of a dive from its trace, its samples and its plan. Must not compute what the trace holds.
 * SPDX-License-Identifier: MIT
 */
#include "report/html/curves.h"

#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "review/scene/scene.h"
#include "tissue/tissue.h"

/* Curves while their columns are being filled. */
struct filling {
    const struct plmi_view *view;
    struct plmi_curves *curves;
    bool failed; /* memory ran out */
    double *column[PLMI_CURVES_COLUMNS];
    const struct plm_rules *rules;
    const struct plm_sample *samples;
    const struct plm_setting *settings;
    const struct plm_point *points;
};

static void *room(struct filling *filling, size_t count, size_t size)
{
    void *got = count <= SIZE_MAX / size ? plmi_arena_get(&filling->curves->arena, count * size) : NULL;
    filling->failed = filling->failed || got == NULL;
    return got;
}

static const char *keep(struct filling *filling, const char *text)
{
    const char *kept = plmi_arena_text(&filling->curves->arena, text, strlen(text));
    filling->failed = filling->failed || kept == NULL;
    return kept != NULL ? kept : "";
}

/* To digits behind the point, as every report tells it. */
static double rounded(double value, double per_unit)
{
    return round(value * per_unit) / per_unit;
}

static void depth_fill(struct filling *filling, size_t i)
{
    const struct plm_point *point = &filling->points[i];
    bool ceiling = point->ceiling_m > 0;
    filling->column[PLMI_CURVES_TIME][i] = (double)point->time_ms / 1e3;
    filling->column[PLMI_CURVES_DEPTH][i] = rounded(point->depth_m, 10);
    filling->column[PLMI_CURVES_LEVEL][i] = plmi_curves_level(filling->curves, point->depth_m);
    filling->column[PLMI_CURVES_CEILING][i] = ceiling ? rounded(point->ceiling_m, 10) : (double)NAN;
    filling->column[PLMI_CURVES_CEILING_LEVEL][i] =
        ceiling ? plmi_curves_level(filling->curves, point->ceiling_m) : (double)NAN;
    filling->column[PLMI_CURVES_CLEARANCE][i] = ceiling ? rounded(point->clearance_m, 100) : (double)NAN;
    filling->column[PLMI_CURVES_RATE][i] = rounded(point->rate_m_min, 10);
    filling->column[PLMI_CURVES_RATE_LIMIT][i] = plmi_review_ascent_limit_m_min(filling->rules, point->depth_m);
}

static void breathing_fill(struct filling *filling, size_t i)
{
    const struct plm_point *point = &filling->points[i];
    filling->column[PLMI_CURVES_PO2][i] = rounded(point->po2_bar, 100);
    filling->column[PLMI_CURVES_SETPOINT][i] =
        point->mode == PLM_MODE_CLOSED ? rounded(point->setpoint_bar, 100) : (double)NAN;
    for (size_t cell = 0; cell < PLM_CELLS; cell++) {
        filling->column[PLMI_CURVES_CELL + cell][i] = rounded(filling->samples[i].cell_bar[cell], 100);
    }
    filling->column[PLMI_CURVES_CNS][i] = rounded(point->cns_pct, 10);
    filling->column[PLMI_CURVES_DENSITY][i] = rounded(point->density_g_l, 100);
}

static void loading_fill(struct filling *filling, size_t i, const struct plm_zhl16 *model)
{
    const struct plm_point *point = &filling->points[i];
    struct plmi_limits limits;
    double gradient_pct[PLM_COMPARTMENTS];
    plmi_limits_find(&limits, &point->tissue, model);
    plmi_limits_gradients_pct(gradient_pct, &limits, point->ambient_bar);
    for (size_t c = 0; c < PLM_COMPARTMENTS; c++) {
        filling->column[PLMI_CURVES_LOADING + c][i] = rounded(gradient_pct[c], 10);
    }
    filling->column[PLMI_CURVES_GRADIENT][i] = rounded(point->gradient_pct, 10);
    filling->column[PLMI_CURVES_LEADING][i] = point->leading;
    filling->column[PLMI_CURVES_SURFACING][i] = rounded(point->surfacing_gradient_pct, 10);
}

/* A mix in a mode gets a number when it is first breathed; what it is called is kept with it. */
static void breathed_fill(struct filling *filling, const struct plm_dive_mix *mixes, size_t setting_count)
{
    struct plmi_curves *curves = filling->curves;
    const struct plm_setting **first = room(filling, setting_count, sizeof *first);
    curves->breathed = room(filling, setting_count, sizeof *curves->breathed);
    for (size_t i = 0; i < curves->count && !filling->failed; i++) {
        const struct plm_setting *setting = &filling->settings[filling->samples[i].setting];
        size_t at = 0;
        while (at < curves->breathed_count && (first[at]->mode != setting->mode || first[at]->mix != setting->mix)) {
            at++;
        }
        if (at == curves->breathed_count) {
            char name[32], text[64];
            snprintf(text, sizeof text, "%s %s", plm_mode_text(setting->mode),
                     plm_mix_name(&mixes[setting->mix].mix, name, sizeof name));
            first[at] = setting;
            curves->breathed[curves->breathed_count++] = keep(filling, text);
        }
        filling->column[PLMI_CURVES_BREATHED][i] = (double)at;
    }
}

static void plan_fill(struct filling *filling, const struct plm_findings *findings)
{
    const struct plm_plan_comparison *plan = findings != NULL ? plm_findings_plan(findings) : NULL;
    if (plan == NULL || filling->failed) {
        return;
    }
    size_t count;
    const struct plm_sample *samples = plm_dive_samples(plm_plan_dive(plan), &count);
    double *time_s = room(filling, count, sizeof *time_s);
    double *level = room(filling, count, sizeof *level);
    if (time_s == NULL || level == NULL) {
        return;
    }
    for (size_t i = 0; i < count; i++) {
        time_s[i] = (double)samples[i].time_ms / 1e3 + plm_plan_shift_s(plan);
        level[i] = plmi_curves_level(filling->curves, samples[i].depth_m);
    }
    filling->curves->plan_count = count;
    filling->curves->plan_time_s = time_s;
    filling->curves->plan_level = level;
}

static void known_fill(struct filling *filling)
{
    for (size_t c = 0; c < PLMI_CURVES_COLUMNS; c++) {
        filling->curves->column[c] = filling->column[c];
        for (size_t i = 0; i < filling->curves->count && !filling->curves->known[c]; i++) {
            filling->curves->known[c] = !isnan(filling->column[c][i]);
        }
    }
}

static void series_fill(struct filling *filling)
{
    const struct plm_dive *dive = filling->view->debriefed->dive;
    const struct plm_zhl16 *model = plm_zhl16_get(filling->rules->model);
    size_t setting_count, mix_count;
    filling->samples = plm_dive_samples(dive, &filling->curves->count);
    filling->settings = plm_dive_settings(dive, &setting_count);
    const struct plm_dive_mix *mixes = plm_dive_mixes(dive, &mix_count);
    filling->points = plm_trace_points(filling->view->debriefed->trace, &filling->curves->count);
    for (size_t c = 0; c < PLMI_CURVES_COLUMNS; c++) {
        filling->column[c] = room(filling, filling->curves->count, sizeof(double));
    }
    for (size_t i = 0; i < filling->curves->count && !filling->failed; i++) {
        depth_fill(filling, i);
        breathing_fill(filling, i);
        loading_fill(filling, i, model);
    }
    if (!filling->failed) {
        breathed_fill(filling, mixes, setting_count);
    }
    plan_fill(filling, filling->view->debriefed->findings);
    if (!filling->failed) {
        known_fill(filling);
    }
}

struct plmi_curves *plmi_curves_new(const struct plmi_view *view)
{
    const struct plm_assumed *assumed = plm_trace_assumed(view->debriefed->trace);
    struct filling filling = {.view = view, .rules = view->rules, .curves = calloc(1, sizeof *filling.curves)};
    if (filling.curves == NULL) {
        return NULL;
    }
    plmi_arena_init(&filling.curves->arena);
    filling.curves->surface_bar = assumed->surface_bar;
    filling.curves->bar_per_m = plm_bar_per_m(assumed->water_kg_m3);
    series_fill(&filling);
    if (!filling.failed) {
        return filling.curves;
    }
    plmi_curves_free(filling.curves);
    return NULL;
}

void plmi_curves_free(struct plmi_curves *curves)
{
    if (curves == NULL) {
        return;
    }
    plmi_arena_free(&curves->arena);
    free(curves);
}

double plmi_curves_level(const struct plmi_curves *curves, double depth_m)
{
    return log1p(fmax(depth_m, 0) * curves->bar_per_m / curves->surface_bar);
}

size_t plmi_curves_at(const struct plmi_curves *curves, double time_s)
{
    const double *times = curves->column[PLMI_CURVES_TIME];
    size_t low = 0, high = curves->count;
    while (high - low > 1) {
        size_t middle = low + (high - low) / 2;
        if (times[middle] <= time_s) {
            low = middle;
        } else {
            high = middle;
        }
    }
    return low;
}

double plmi_curves_least(const struct plmi_curves *curves, enum plmi_curves_column column)
{
    double least = (double)NAN;
    for (size_t i = 0; i < curves->count; i++) {
        least = fmin(least, curves->column[column][i]);
    }
    return least;
}

double plmi_curves_most(const struct plmi_curves *curves, enum plmi_curves_column column)
{
    double most = (double)NAN;
    for (size_t i = 0; i < curves->count; i++) {
        most = fmax(most, curves->column[column][i]);
    }
    return most;
}

double plmi_curves_half_time_min(const struct plmi_view *view, int compartment)
{
    return plm_zhl16_get(view->rules->model)->n2_half_time_min[compartment];
}
