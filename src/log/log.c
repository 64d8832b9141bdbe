/*
 * Opens a log with what belongs to it, and gives its dives with that laid over them. Must not replay or judge.
 * SPDX-License-Identifier: MIT
 */
#include <plimsoll/log.h>

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/clock.h"
#include "import/import.h"
#include "log/assumed.h"
#include "log/companions.h"
#include "log/overlay.h"

/* One day: a plan names its corners, and the way between them is no gap. */
#define PLAN_GAP_S 86400

struct plm_log {
    struct plm_log_options options; /* its rules are those below */
    struct plm_rules rules;         /* the caller's, with the card's over them */
    struct plm_diag_sink sink;
    struct plmi_diags diags;
    struct plm_source *own; /* opened here; NULL: the caller's */
    struct plm_source *source;
    struct plm_import *import;
    struct plm_card *card;
    struct plm_dive *plan;
    char *card_path, *plan_path;
    void *bytes, *card_text; /* with options.keep */
    size_t count;            /* of bytes          */
    bool plan_partial;       /* something in the plan's file is not in the plan */
    struct plm_stamp start_clock;
    struct plmi_overlay overlay;
    struct plm_stamp first; /* start of the first dive as the log tells it */
    bool any;               /* a dive was read                             */
    bool mode_assumed;      /* a mode was taken for a dive that speaks of a loop */
    bool left;              /* a dive that was asked for is not there      */
    enum plm_status status; /* other than OK: over                         */
    char sha256[65];
};

struct plm_log_options plm_log_options_default(const struct plm_rules *rules)
{
    return (struct plm_log_options){.import = {.rules = rules}};
}

static enum plm_status start_clock_read(struct plm_log *log)
{
    const char *text = log->options.start_clock;
    if (text == NULL) {
        return PLM_STATUS_OK;
    }
    if (plmi_clock_parse(text, strlen(text), &log->start_clock) && log->start_clock.has_clock) {
        log->overlay.start = &log->start_clock;
        return PLM_STATUS_OK;
    }
    plmi_diags_add(&log->diags, PLM_LEVEL_ERROR, PLM_DIAG_STAMP, 0, 0,
                   "\"%s\" is no date and time as 2031-05-06T09:30+02:00; nothing was read", text);
    return PLM_STATUS_ARGUMENT;
}

static enum plm_status zone_read(struct plm_log *log)
{
    const char *text = log->options.zone;
    log->overlay.has_zone = text != NULL && plmi_clock_zone_parse(text, &log->overlay.zone_min);
    if (text == NULL || log->overlay.has_zone) {
        return PLM_STATUS_OK;
    }
    plmi_diags_add(&log->diags, PLM_LEVEL_ERROR, PLM_DIAG_STAMP, 0, 0,
                   "\"%s\" is no time zone as +11:00 or Z; nothing was read", text);
    return PLM_STATUS_ARGUMENT;
}

/* path: of the log; NULL: nothing lies beside it. */
static enum plm_status card_read(struct plm_log *log, const char *path)
{
    const struct plm_log_options *options = &log->options;
    const struct plm_rules *rules = options->import.rules;
    struct plm_source *source = NULL;
    size_t count;
    log->overlay.card = options->card;
    if (options->card != NULL) {
        return PLM_STATUS_OK;
    }
    enum plm_status status = plmi_companions_card_find(&log->card_path, path != NULL && !options->alone ? path : "-",
                                                       options->card_path, &log->sink);
    if (status != PLM_STATUS_OK || log->card_path == NULL) {
        return status;
    }
    status = plm_source_open_regular(&source, log->card_path, rules, &log->sink);
    if (status == PLM_STATUS_OK) {
        status = plm_card_read(&log->card, source, rules, &log->sink);
    }
    if (status == PLM_STATUS_OK && options->keep) {
        status = plm_source_bytes(source, &log->card_text, &count);
    }
    plm_source_free(source);
    log->overlay.card = log->card;
    return status;
}

/* The first dive of the plan's file, read as any log is. */
static enum plm_status plan_first(struct plm_log *log, struct plm_source *source, const struct plm_rules *rules)
{
    const struct plm_log_options options = plm_log_options_default(rules);
    struct plm_log *plan = NULL;
    enum plm_status status = plm_log_open_source(&plan, source, &options, &log->sink);
    if (status == PLM_STATUS_OK) {
        status = plm_log_next(plan, &log->plan);
    }
    log->plan_partial = plan != NULL && plm_log_partial(plan);
    plm_log_free(plan);
    if (status != PLM_STATUS_END) {
        return status;
    }
    struct plmi_diags diags;
    plmi_diags_init(&diags, &log->sink, log->plan_path);
    plmi_diags_add(&diags, PLM_LEVEL_ERROR, PLM_DIAG_PLAN, 0, 0, "holds no dive; nothing is compared with it");
    return PLM_STATUS_INPUT;
}

static enum plm_status plan_read(struct plm_log *log)
{
    const struct plm_log_options *options = &log->options;
    const char *named = log->card != NULL ? plm_card_plan(log->card) : NULL;
    struct plm_rules rules = *options->import.rules;
    struct plm_source *source = NULL;
    if (options->without_plan) {
        return PLM_STATUS_OK;
    }
    enum plm_status status =
        plmi_companions_plan_find(&log->plan_path, options->plan_path, log->card_path, named, &log->sink);
    if (status != PLM_STATUS_OK || log->plan_path == NULL) {
        return status;
    }
    rules.gap_s = PLAN_GAP_S;
    rules.gap_max_min = PLAN_GAP_S / 60;
    rules.spike_m_min = rules.doubt_m_min = (double)INFINITY; /* corners are no samples */
    status = plm_source_open_regular(&source, log->plan_path, &rules, &log->sink);
    if (status == PLM_STATUS_OK) {
        status = plan_first(log, source, &rules);
    }
    plm_source_free(source);
    return status;
}

/* All that comes after the bytes are there. */
static enum plm_status source_open(struct plm_log *log, const char *path)
{
    enum plm_status status = card_read(log, path);
    if (status == PLM_STATUS_OK && log->overlay.card != NULL) {
        plm_card_rules_lay(log->overlay.card, &log->rules, log->options.stated);
    }
    if (status == PLM_STATUS_OK) {
        status = plan_read(log);
    }
    if (status == PLM_STATUS_OK) {
        status = start_clock_read(log);
    }
    if (status == PLM_STATUS_OK) {
        status = zone_read(log);
    }
    if (status == PLM_STATUS_OK && log->options.digest) {
        status = plm_source_sha256(log->source, log->sha256);
    }
    log->options.import.card = log->overlay.card;
    if (status == PLM_STATUS_OK) {
        status = plm_import_open(&log->import, log->source, &log->options.import, &log->sink);
    }
    return status;
}

/* Returns: NULL (reported) without memory. */
static struct plm_log *log_new(const char *name, const struct plm_log_options *options,
                               const struct plm_diag_sink *sink)
{
    struct plm_log *log = calloc(1, sizeof *log);
    if (log == NULL) {
        const struct plmi_diags diags = {sink, name};
        (void)plmi_diags_no_memory(&diags, 0, "to open it");
        return NULL;
    }
    log->options = *options;
    log->rules = *options->import.rules;
    log->options.import.rules = &log->rules;
    log->sink = sink != NULL ? *sink : (struct plm_diag_sink){NULL, NULL};
    return log;
}

/* Takes log: gives it where its opening came to a good end. */
static enum plm_status log_give(struct plm_log **out, struct plm_log *log, const char *path)
{
    plmi_diags_init(&log->diags, &log->sink, plm_source_name(log->source));
    enum plm_status status = source_open(log, path);
    if (status != PLM_STATUS_OK) {
        plm_log_free(log);
        return status;
    }
    *out = log;
    return PLM_STATUS_OK;
}

/* The bytes in memory, and a source over them in place of the one over the file. */
static enum plm_status bytes_keep(struct plm_log *log, const char *path)
{
    enum plm_status status = plm_source_bytes(log->own, &log->bytes, &log->count);
    plm_source_free(log->own);
    log->own = NULL;
    return status == PLM_STATUS_OK
               ? plm_source_open_memory(&log->own, log->bytes, log->count, path, log->options.import.rules, &log->sink)
               : status;
}

enum plm_status plm_log_open(struct plm_log **out, const char *path, const struct plm_log_options *options,
                             const struct plm_diag_sink *sink)
{
    struct plm_log *log = log_new(path, options, sink);
    *out = NULL;
    if (log == NULL) {
        return PLM_STATUS_MEMORY;
    }
    enum plm_status status = plm_source_open_file(&log->own, path, NULL, options->import.rules, &log->sink);
    if (status == PLM_STATUS_OK && options->keep) {
        status = bytes_keep(log, path);
    }
    if (status != PLM_STATUS_OK) {
        plm_log_free(log);
        return status;
    }
    log->source = log->own;
    return log_give(out, log, path);
}

enum plm_status plm_log_open_source(struct plm_log **out, struct plm_source *source,
                                    const struct plm_log_options *options, const struct plm_diag_sink *sink)
{
    struct plm_log *log = log_new(plm_source_name(source), options, sink);
    *out = NULL;
    if (log == NULL) {
        return PLM_STATUS_MEMORY;
    }
    log->source = source;
    return log_give(out, log, NULL);
}

enum plm_status plm_log_next(struct plm_log *log, struct plm_dive **out)
{
    *out = NULL;
    if (log->status != PLM_STATUS_OK) {
        return log->status;
    }
    log->status = plm_import_next(log->import, out);
    if (log->status != PLM_STATUS_OK) {
        return log->status;
    }
    const struct plm_stamp *first = log->any ? &log->first : NULL;
    if (first == NULL) {
        log->first = plm_dive_info_get(*out)->start;
        log->any = true;
    }
    log->status = plmi_overlay_lay(out, &log->overlay, first, log->options.import.rules, &log->sink);
    if (log->status == PLM_STATUS_OK) {
        log->status = plmi_assumed_loop(out, log->options.import.rules, &log->sink);
    }
    if (log->status == PLM_STATUS_OK) {
        log->mode_assumed = log->mode_assumed || plmi_assumed_mode(*out);
        plmi_assumed_tell(plmi_import_diags(log->import), *out);
        return PLM_STATUS_OK;
    }
    plm_dive_free(*out);
    *out = NULL;
    return log->status;
}

const char *plm_factors_from_text(enum plm_factors_from from)
{
    static const char *const texts[] = {[PLM_FACTORS_ASSUMED] = "assumed",
                                        [PLM_FACTORS_LOG] = "log",
                                        [PLM_FACTORS_CARD] = "card",
                                        [PLM_FACTORS_OPTION] = "option"};
    return texts[from];
}

/* Whether the caller's gradient factors are none that only stand in for others. */
static bool factors_stated(const struct plm_rules_stated *stated, const struct plm_rules *rules)
{
    const struct plm_rules defaults = plm_rules_default();
    return stated != NULL ? stated->gf_low_pct || stated->gf_high_pct
                          : fabs(rules->gf_low_pct - defaults.gf_low_pct) > 0 ||
                                fabs(rules->gf_high_pct - defaults.gf_high_pct) > 0;
}

enum plm_factors_from plm_log_rules_lay(const struct plm_log *log, const struct plm_dive *dive, struct plm_rules *rules)
{
    const struct plm_rules_stated *stated = log != NULL ? log->options.stated : NULL;
    const struct plm_dive_info *info = plm_dive_info_get(dive);
    if (log != NULL && log->overlay.card != NULL) {
        plm_card_rules_lay(log->overlay.card, rules, stated);
    }
    if (isnan(info->gf_low_pct) || (stated != NULL && factors_stated(stated, rules))) {
        return factors_stated(stated, rules) ? PLM_FACTORS_OPTION : PLM_FACTORS_ASSUMED;
    }
    rules->gf_low_pct = info->gf_low_pct;
    rules->gf_high_pct = info->gf_high_pct;
    return info->gf_by_card ? PLM_FACTORS_CARD : PLM_FACTORS_LOG;
}

void plm_log_missing(struct plm_log *log, int dive_index)
{
    int count = plm_import_dives(log->import);
    log->left = true;
    if (dive_index <= count) {
        plmi_diags_add(&log->diags, PLM_LEVEL_ERROR, PLM_DIAG_USAGE, 0, 0,
                       "dive %d cannot be read and was skipped; nothing is told of it", dive_index);
    } else {
        plmi_diags_add(&log->diags, PLM_LEVEL_ERROR, PLM_DIAG_USAGE, 0, 0, "there is no dive %d; it holds %d",
                       dive_index, count);
    }
}

bool plm_log_partial(const struct plm_log *log)
{
    return log->plan_partial || log->left || log->mode_assumed || plm_import_partial(log->import);
}

const char *plm_log_name(const struct plm_log *log)
{
    return plm_source_name(log->source);
}

const struct plm_verdict *plm_log_verdict(const struct plm_log *log)
{
    return plm_import_verdict(log->import);
}

const char *plm_log_sha256(const struct plm_log *log)
{
    return log->sha256;
}

const void *plm_log_bytes(const struct plm_log *log, size_t *count)
{
    *count = log->count;
    return log->bytes;
}

const char *plm_log_card_text(const struct plm_log *log)
{
    return log->card_text;
}

const struct plm_card *plm_log_card(const struct plm_log *log)
{
    return log->overlay.card;
}

const char *plm_log_card_path(const struct plm_log *log)
{
    return log->card_path;
}

const struct plm_dive *plm_log_plan(const struct plm_log *log)
{
    return log->plan;
}

const char *plm_log_plan_path(const struct plm_log *log)
{
    return log->plan_path;
}

void plm_log_free(struct plm_log *log)
{
    if (log == NULL) {
        return;
    }
    plm_import_free(log->import);
    plm_card_free(log->card);
    plm_dive_free(log->plan);
    free(log->card_path);
    free(log->plan_path);
    plm_source_free(log->own);
    free(log->bytes);
    free(log->card_text);
    free(log);
}
