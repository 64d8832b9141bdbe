/*
 * The pipeline, top to bottom: take a dive of a log, replay, find the decompression, review.
 * Must not hold more than one dive; what lasts from dive to dive is the carried state.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <plimsoll/debrief.h>

#include "base/fold.h"
#include "debrief/carry.h"

struct plm_debrief {
    struct plm_debrief_options options;
    struct plm_log *log;              /* NULL: none */
    const struct plm_diag_sink *sink; /* the caller's */
    struct plmi_fold fold;
    struct plmi_diags diags; /* into fold */
    struct plmi_carry carry;
    int index; /* of the dive taken last; 0 none */
};

struct plm_debrief_options plm_debrief_options_default(const struct plm_rules *rules)
{
    return (struct plm_debrief_options){
        .rules = rules,
        .surface_bar = (double)NAN,
        .altitude_m = (double)NAN,
        .water_kg_m3 = (double)NAN,
        .schedules = true,
        .decompression = true,
        .review = {.hold = true, .cost = true},
    };
}

/* Where what it has to say goes, and what the first dive starts from. */
static void debrief_begin(struct plm_debrief *debrief, const char *file, const struct plm_diag_sink *sink)
{
    debrief->sink = sink;
    plmi_fold_init(&debrief->fold, sink, file);
    plmi_diags_init(&debrief->diags, &debrief->fold.sink, file);
    plmi_carry_init(&debrief->carry, debrief->options.start);
}

enum plm_status plm_debrief_open(struct plm_debrief **out, struct plm_log *log,
                                 const struct plm_debrief_options *options, const struct plm_diag_sink *sink)
{
    struct plm_debrief *debrief = *out = calloc(1, sizeof *debrief);
    struct plmi_diags diags;
    plmi_diags_init(&diags, sink, plm_log_name(log));
    if (debrief == NULL) {
        return plmi_diags_no_memory(&diags, 0, "to debrief it");
    }
    debrief->options = *options;
    debrief->log = log;
    debrief_begin(debrief, diags.file, sink);
    return PLM_STATUS_OK;
}

static enum plm_status memory_tell(struct plm_debrief *debrief)
{
    return plmi_diags_no_memory(&debrief->diags, 0, "to debrief it");
}

/* The caller's, the log's, or the dive's own; NULL none. */
static const struct plm_dive *plan_find(const struct plm_debrief *debrief, const struct plm_dive *dive)
{
    const struct plm_dive *plan = debrief->options.plan;
    if (plan == NULL && debrief->log != NULL) {
        plan = plm_log_plan(debrief->log);
    }
    return plan != NULL ? plan : plm_dive_plan(dive);
}

static struct plm_debriefed *debriefed_new(const struct plm_debrief *debrief, struct plm_dive *dive)
{
    struct plm_debriefed *one = calloc(1, sizeof *one);
    if (one == NULL) {
        return NULL;
    }
    one->dive = dive;
    one->plan = plan_find(debrief, dive);
    one->rules = *debrief->options.rules;
    one->factors_from = plm_log_rules_lay(debrief->log, dive, &one->rules);
    one->replay = plm_replay_options_default(&one->rules);
    one->replay.surface_bar = debrief->options.surface_bar;
    one->replay.altitude_m = debrief->options.altitude_m;
    one->replay.water_kg_m3 = debrief->options.water_kg_m3;
    one->replay.planned_max_m = one->plan != NULL ? plm_dive_max_depth_m(one->plan) : 0.0;
    const bool read = debrief->log != NULL;
    one->verdict = read ? plm_log_verdict(debrief->log) : NULL;
    memcpy(one->sha256, read ? plm_log_sha256(debrief->log) : plm_dive_info_get(dive)->sha256, sizeof one->sha256);
    return one;
}

/* A debriefed dive in the making; takes dive. */
static enum plm_status dive_begin(struct plm_debrief *debrief, struct plm_dive *dive, struct plm_debriefed **out)
{
    *out = debriefed_new(debrief, dive);
    if (*out != NULL) {
        return PLM_STATUS_OK;
    }
    plm_dive_free(dive);
    return memory_tell(debrief);
}

static enum plm_status dive_take(struct plm_debrief *debrief, struct plm_debriefed **out)
{
    struct plm_dive *dive = NULL;
    enum plm_status status = plm_log_next(debrief->log, &dive);
    if (status != PLM_STATUS_OK) {
        return status;
    }
    debrief->index = plm_dive_info_get(dive)->index;
    return dive_begin(debrief, dive, out);
}

static struct plm_start start_find(struct plm_debrief *debrief, const struct plm_debriefed *one)
{
    const struct plm_debrief_options *options = &debrief->options;
    const struct plm_dive *dive = one->dive;
    bool in_file = debrief->carry.any && debrief->carry.group == plm_dive_info_get(dive)->group;
    struct plm_start start;
    if (options->residual_find != NULL && options->residual_find(options->residual_context, dive, in_file, &start)) {
        return start;
    }
    return plmi_carry_into(&debrief->carry, dive, &one->rules, &debrief->diags);
}

/* Replays from the carried state and carries on. */
static enum plm_status dive_replay(struct plm_debrief *debrief, struct plm_debriefed *one, bool schedules)
{
    one->start = start_find(debrief, one);
    if (one->start.from != NULL) {
        snprintf(one->start_from, sizeof one->start_from, "%s", one->start.from);
        one->start.from = one->start_from;
    }
    one->replay.start = &one->start;
    one->replay.schedules = schedules;
    enum plm_status status = plm_replay(&one->trace, one->dive, &one->replay, debrief->sink);
    if (status == PLM_STATUS_OK) {
        plmi_carry_keep(&debrief->carry, one->dive, one->trace, &one->rules);
    }
    return status;
}

static enum plm_status dive_judge(struct plm_debrief *debrief, struct plm_debriefed *one)
{
    const struct plm_diag_sink *sink = debrief->sink;
    if (debrief->options.decompression) {
        one->decompression = calloc(1, sizeof *one->decompression);
        if (one->decompression == NULL) {
            return memory_tell(debrief);
        }
        enum plm_status status = plm_decompression_find(one->decompression, one->dive, one->trace, &one->replay, sink);
        if (status != PLM_STATUS_OK) {
            return status;
        }
    }
    struct plm_review_input input = {.dive = one->dive,
                                     .trace = one->trace,
                                     .decompression = one->decompression,
                                     .plan = one->plan,
                                     .replay = &one->replay};
    return plm_review(&one->findings, &input, &debrief->options.review, sink);
}

/* No more dives, or none that is wanted: whether one that is not there was asked for. */
static enum plm_status source_end(struct plm_debrief *debrief)
{
    int wanted = debrief->options.dive_index;
    if (wanted == 0 || wanted == debrief->index) {
        return PLM_STATUS_END;
    }
    plm_log_missing(debrief->log, wanted);
    return PLM_STATUS_ARGUMENT;
}

static enum plm_status dive_finish(struct plm_debrief *debrief, struct plm_debriefed *one, bool wanted)
{
    enum plm_status status = dive_replay(debrief, one, wanted && debrief->options.schedules);
    return status == PLM_STATUS_OK && wanted && !debrief->options.replay_only ? dive_judge(debrief, one) : status;
}

enum plm_status plm_debrief_run(struct plm_debrief *debrief, struct plm_dive *dive, struct plm_debriefed **out)
{
    struct plm_debriefed *one = NULL;
    *out = NULL;
    enum plm_status status = dive_begin(debrief, dive, &one);
    if (status == PLM_STATUS_OK) {
        status = dive_finish(debrief, one, true);
    }
    if (status == PLM_STATUS_OK) {
        *out = one;
    } else {
        plm_debriefed_free(one);
    }
    return status;
}

enum plm_status plm_debrief_dive(struct plm_debriefed **out, struct plm_dive *dive,
                                 const struct plm_debrief_options *options, const struct plm_diag_sink *sink)
{
    struct plm_debrief debrief = {.options = *options};
    debrief_begin(&debrief, plm_dive_info_get(dive)->file, sink);
    struct plm_debriefed *one = debriefed_new(&debrief, dive);
    enum plm_status status = one != NULL ? dive_finish(&debrief, one, true) : memory_tell(&debrief);
    plmi_fold_finish(&debrief.fold); /* it names the dive's file */
    *out = status == PLM_STATUS_OK ? one : NULL;
    if (one == NULL) {
        plm_dive_free(dive);
    } else if (status != PLM_STATUS_OK) {
        plm_debriefed_free(one);
    }
    return status;
}

enum plm_status plm_debrief_next(struct plm_debrief *debrief, struct plm_debriefed **out)
{
    const struct plm_debrief_options *options = &debrief->options;
    *out = NULL;
    while (options->dive_index == 0 || debrief->index < options->dive_index) {
        struct plm_debriefed *one = NULL;
        enum plm_status status = dive_take(debrief, &one);
        if (status == PLM_STATUS_END) {
            return source_end(debrief);
        }
        if (status != PLM_STATUS_OK) {
            return status;
        }
        bool wanted = options->dive_index == 0 || debrief->index == options->dive_index;
        if (!wanted && debrief->index > options->dive_index) {
            plm_debriefed_free(one);
            return source_end(debrief);
        }
        status = dive_finish(debrief, one, wanted);
        if (status == PLM_STATUS_OK && wanted) {
            *out = one;
            return PLM_STATUS_OK;
        }
        plm_debriefed_free(one);
        if (status != PLM_STATUS_OK) {
            return status;
        }
    }
    return PLM_STATUS_END;
}

bool plm_debrief_partial(const struct plm_debrief *debrief)
{
    return plm_log_partial(debrief->log) || debrief->carry.doubted;
}

void plm_debriefed_free(struct plm_debriefed *debriefed)
{
    if (debriefed == NULL) {
        return;
    }
    plm_findings_free(debriefed->findings);
    free(debriefed->decompression);
    plm_trace_free(debriefed->trace);
    plm_dive_free(debriefed->dive);
    free(debriefed);
}

void plm_debrief_free(struct plm_debrief *debrief)
{
    if (debrief == NULL) {
        return;
    }
    plmi_fold_finish(&debrief->fold);
    free(debrief);
}
