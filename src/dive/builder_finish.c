/*
 * The checks of a whole dive, and the handing over. Must not look at how a file was written.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <stdlib.h>

#include "base/figure.h"
#include "dive/builder_end.h"
#include "dive/builder_spikes.h"
#include "dive/changes.h"
#include "dive/events_order.h"
#include "dive/steps.h"
#include "dive/stated.h"

/* A record that ends deeper than this [m] misses a part of the dive; shallower is how recorders stop. */
#define END_QUIET_M 3.0
/* No diver moves faster than this [m/s]; a record that does is often in feet. */
#define RATE_POSSIBLE_M_S 3.0
/* Deeper than this [m] a record may be in feet. */
#define DEPTH_DOUBTED_M 350.0

static struct plmi_figure seconds(int64_t time_ms)
{
    return plmi_figure_short((double)time_ms / 1000.0, 3);
}

static enum plm_status check_count(struct plm_dive_builder *builder)
{
    const struct plm_dive *dive = builder->dive;
    double deepest_m = 0;
    for (size_t i = 0; i < dive->sample_count; i++) {
        deepest_m = fmax(deepest_m, dive->samples[i].depth_m);
    }
    if (dive->sample_count < 2) {
        plmi_builder_tell(builder, PLM_LEVEL_ERROR, PLM_DIAG_DIVE_SKIPPED, dive->info.line,
                          "dive %d has %zu usable samples, 2 are needed; not read", dive->info.index,
                          dive->sample_count);
        return PLM_STATUS_INPUT;
    }
    if (deepest_m <= 0) {
        plmi_builder_tell(builder, PLM_LEVEL_ERROR, PLM_DIAG_DIVE_SKIPPED, dive->info.line,
                          "dive %d never leaves the surface; not read", dive->info.index);
        return PLM_STATUS_INPUT;
    }
    if (!builder->copied && deepest_m > DEPTH_DOUBTED_M) {
        plmi_builder_tell(builder, PLM_LEVEL_WARNING, PLM_DIAG_UNIT_GUESSED, dive->info.line,
                          "dive %d reaches %s m: are its depths feet? metres taken", dive->info.index,
                          plmi_figure(deepest_m, 0).text);
    }
    return PLM_STATUS_OK;
}

/* A first sample below the surface gets one at the surface before it. */
static enum plm_status check_start(struct plm_dive_builder *builder, int64_t gap_ms)
{
    const struct plm_sample *first = &builder->dive->samples[0];
    if (first->depth_m <= 0) {
        return PLM_STATUS_OK;
    }
    bool soon = first->time_ms <= gap_ms && (double)first->time_ms <= builder->rules.gap_max_min * 60e3;
    int64_t time_ms = soon && first->time_ms > 0 ? 0 : first->time_ms;
    if (first->depth_m > builder->rules.surface_depth_m) {
        bool quiet = first->depth_m < END_QUIET_M && soon;
        plmi_builder_tell(builder, quiet ? PLM_LEVEL_NOTE : PLM_LEVEL_WARNING, PLM_DIAG_DIVE_EDGES, first->line,
                          "the record begins at %s m, %s s; a start at the surface at %s s is put before it",
                          plmi_figure(first->depth_m, 1).text, seconds(first->time_ms).text, seconds(time_ms).text);
    }
    return plmi_builder_surface_put(builder, 0, time_ms, first->setting) ? PLM_STATUS_OK
                                                                         : plmi_builder_no_memory(builder);
}

static void check_end(struct plm_dive_builder *builder)
{
    const struct plm_dive *dive = builder->dive;
    const struct plm_sample *last = &dive->samples[dive->sample_count - 1];
    if (last->depth_m > builder->rules.surface_depth_m) {
        plmi_builder_tell(builder, last->depth_m < END_QUIET_M ? PLM_LEVEL_NOTE : PLM_LEVEL_WARNING,
                          PLM_DIAG_DIVE_EDGES, last->line, "the record ends at %s m; the dive is closed there",
                          plmi_figure(last->depth_m, 1).text);
    }
    builder->dive->info.ends_in_water = builder->dive->info.ends_in_water || last->depth_m >= END_QUIET_M;
}

static void tell_gap(struct plm_dive_builder *builder, size_t i)
{
    const struct plm_sample *before = &builder->dive->samples[i - 1];
    const struct plm_sample *after = &builder->dive->samples[i];
    plmi_builder_tell(builder, PLM_LEVEL_NOTE, PLM_DIAG_GAP, after->line,
                      "%s s without samples; a straight line from %s m to %s m is taken",
                      seconds(after->time_ms - before->time_ms).text, plmi_figure(before->depth_m, 1).text,
                      plmi_figure(after->depth_m, 1).text);
}

/* A recorder that writes changes alone has no gap where nothing moved. */
static bool is_gap(const struct plm_dive_builder *builder, size_t i, int64_t gap_ms)
{
    const struct plm_sample *before = &builder->dive->samples[i - 1], *after = &builder->dive->samples[i];
    return after->time_ms - before->time_ms > gap_ms &&
           !plmi_silence_is_level(&builder->dive->info, &builder->rules, before->depth_m, after->depth_m);
}

/* A few gaps are reported each; many, as in a record of turning points alone, by their number and the longest. */
static void check_gaps(struct plm_dive_builder *builder, int64_t gap_ms)
{
    const size_t few = 3;
    const struct plm_dive *dive = builder->dive;
    size_t gaps = 0;
    size_t longest = 0;
    int64_t longest_ms = 0;
    for (size_t i = 1; i < dive->sample_count; i++) {
        int64_t step_ms = dive->samples[i].time_ms - dive->samples[i - 1].time_ms;
        bool gap = is_gap(builder, i, gap_ms);
        gaps += gap;
        if (gap && step_ms > longest_ms) {
            longest_ms = step_ms;
            longest = i;
        }
    }
    if (gaps > few) {
        plmi_builder_tell(builder, PLM_LEVEL_NOTE, PLM_DIAG_GAP, dive->samples[longest].line,
                          "%zu stretches without samples, the longest of %s s; straight lines are taken", gaps,
                          seconds(longest_ms).text);
        return;
    }
    for (size_t i = 1; i < dive->sample_count && gaps > 0; i++) {
        if (is_gap(builder, i, gap_ms)) {
            tell_gap(builder, i);
        }
    }
}

/* Many samples of one moment: the clock of the record is coarser than its sampling. */
static void check_clock(struct plm_dive_builder *builder)
{
    const struct plm_dive *dive = builder->dive;
    size_t still = 0;
    for (size_t i = 1; i < dive->sample_count; i++) {
        still += dive->samples[i].time_ms == dive->samples[i - 1].time_ms;
    }
    if (still > 10 && still * 4 > dive->sample_count) {
        plmi_builder_lose(builder, PLM_DIAG_TIME_ORDER, dive->info.line,
                          "in %zu of %zu samples time stands still: is it coarser than the sampling? taken as steps",
                          still, dive->sample_count);
    }
}

static void check_rate(struct plm_dive_builder *builder)
{
    const struct plm_dive *dive = builder->dive;
    double fastest_m_s = 0;
    uint32_t line = 0;
    for (size_t i = 1; i < dive->sample_count; i++) {
        int64_t step_ms = dive->samples[i].time_ms - dive->samples[i - 1].time_ms;
        double rise_m = fabs(dive->samples[i].depth_m - dive->samples[i - 1].depth_m);
        if (step_ms > 0 && rise_m * 1000.0 / (double)step_ms > fastest_m_s) {
            fastest_m_s = rise_m * 1000.0 / (double)step_ms;
            line = dive->samples[i].line;
        }
    }
    if (fastest_m_s > RATE_POSSIBLE_M_S) {
        plmi_builder_tell(builder, PLM_LEVEL_WARNING, PLM_DIAG_UNIT_GUESSED, line,
                          "depth changes by up to %s m/s, faster than a diver: are its depths feet, or a sample "
                          "wrong? taken as recorded",
                          plmi_figure(fastest_m_s, 1).text);
    }
}

/* A number about the whole dive that cannot be is left aside. */
static void stated_check(struct plm_dive_builder *builder, enum plmi_stated what, double *value)
{
    struct plm_dive_info *info = &builder->dive->info;
    bool stated = !isnan(*value);
    *value = plmi_stated_settle(what, *value, &builder->diags, (long)info->line);
    info->partial = info->partial || (stated && isnan(*value));
}

/* Gradient factors stand as a pair, the low one not above the high one, or not at all. */
static void check_factors(struct plm_dive_builder *builder)
{
    struct plm_dive_info *info = &builder->dive->info;
    bool any = !isnan(info->gf_low_pct) || !isnan(info->gf_high_pct);
    stated_check(builder, PLMI_TOLD_FACTOR, &info->gf_low_pct);
    stated_check(builder, PLMI_TOLD_FACTOR, &info->gf_high_pct);
    if (!any || info->gf_low_pct <= info->gf_high_pct) {
        return;
    }
    info->gf_low_pct = info->gf_high_pct = (double)NAN;
    plmi_builder_lose(builder, PLM_DIAG_RANGE, info->line,
                      "gradient factors are a low one and a high one not below it; they are left aside");
}

static void check_stated(struct plm_dive_builder *builder)
{
    struct plm_dive_info *info = &builder->dive->info;
    stated_check(builder, PLMI_TOLD_SURFACE, &info->surface_bar);
    stated_check(builder, PLMI_TOLD_ALTITUDE, &info->altitude_m);
    stated_check(builder, PLMI_TOLD_WATER, &info->water_kg_m3);
    stated_check(builder, PLMI_TOLD_STEP, &info->depth_step_m);
    check_factors(builder);
    stated_check(builder, PLMI_TOLD_INTERVAL, &info->surface_interval_s);
}

static enum plm_status check(struct plm_dive_builder *builder)
{
    struct plm_dive *dive = builder->dive;
    if (builder->no_memory) {
        return PLM_STATUS_MEMORY;
    }
    check_stated(builder);
    plmi_builder_above(builder);
    if (!builder->copied && (!plmi_builder_spikes(builder) || !plmi_builder_end(builder))) {
        return plmi_builder_no_memory(builder);
    }
    enum plm_status status = check_count(builder);
    if (status != PLM_STATUS_OK) {
        return status;
    }
    if (!plmi_events_order(dive->events, dive->event_count)) {
        return plmi_builder_no_memory(builder);
    }
    if (isnan(dive->info.depth_step_m)) {
        dive->info.depth_step_m = plmi_depth_step_m(dive->samples, dive->sample_count);
    }
    if (!builder->copied && !plmi_changes_find(&dive->info, &builder->rules, dive->samples, dive->sample_count)) {
        return plmi_builder_no_memory(builder);
    }
    int64_t usual_ms = plmi_usual_step_ms(dive->samples, dive->sample_count);
    if (usual_ms < 0) {
        return plmi_builder_no_memory(builder);
    }
    int64_t gap_ms = (int64_t)(builder->rules.gap_s * 1000.0);
    gap_ms = gap_ms > 3 * usual_ms ? gap_ms : 3 * usual_ms;
    if (!builder->copied) {
        check_gaps(builder, gap_ms);
        check_clock(builder);
        check_rate(builder);
        check_end(builder);
    }
    return check_start(builder, gap_ms);
}

/* Gives back the memory that growing arrays hold in reserve. */
static void shrink(void **items, size_t *capacity, size_t count, size_t size)
{
    void *less = count > 0 && count < *capacity ? realloc(*items, count * size) : NULL;
    if (less != NULL) {
        *items = less;
        *capacity = count;
    }
}

enum plm_status plm_dive_builder_finish(struct plm_dive_builder *builder, struct plm_dive **out)
{
    *out = NULL;
    enum plm_status status = check(builder);
    if (status == PLM_STATUS_OK) {
        struct plm_dive *dive = builder->dive;
        shrink((void **)&dive->samples, &dive->sample_capacity, dive->sample_count, sizeof *dive->samples);
        shrink((void **)&dive->events, &dive->event_capacity, dive->event_count, sizeof *dive->events);
        *out = dive;
        builder->dive = NULL;
    }
    plm_dive_builder_free(builder);
    return status;
}
