/*
 * Opens a log whose dives are to be added. Must not keep anything that cannot be read again.
 * SPDX-License-Identifier: MIT
 */
#include "logbook/log.h"

#include <stdlib.h>
#include <string.h>

#include "logbook/stored.h"

/* What was told beside the log, with what all its records have alike. */
static void record_fill(struct plm_logbook_log *log, const struct plm_logbook_options *options)
{
    const struct plm_debrief_options *debrief = options->debrief;
    log->record = (struct plm_record){.log_sha256 = log->sha256,
                                      .card = log->card,
                                      .rules = log->rules_text,
                                      .told = {.diver = options->diver,
                                               .start = debrief->start_clock,
                                               .zone = debrief->zone,
                                               .surface_bar = debrief->surface_bar,
                                               .altitude_m = debrief->altitude_m,
                                               .water_kg_m3 = debrief->water_kg_m3,
                                               .columns = debrief->import.columns,
                                               .date_order = debrief->import.date_order,
                                               .interval_s = debrief->import.interval_s,
                                               .zero_auto = debrief->import.zero_auto}};
}

static const char *last_part(const char *path)
{
    const char *slash = strrchr(path, '/');
    return slash != NULL ? slash + 1 : path;
}

static enum plm_status rules_keep(struct plm_logbook_log *log)
{
    struct plm_logbook *logbook = log->logbook;
    log->rules_text = plmi_kept_rules_write(log->in_force);
    if (log->rules_text == NULL) {
        plmi_logbook_tell(logbook, PLM_LEVEL_ERROR, NULL, "no memory for the rules");
        return PLM_STATUS_MEMORY;
    }
    return plmi_kept_rules_read(&logbook->rules, log->rules_text, &log->rules, logbook->sink);
}

/* The log's bytes in memory, and a source over them. */
static enum plm_status bytes_read(struct plm_logbook_log *log, const char *path, const struct plm_diag_sink *sink)
{
    struct plm_source *file = NULL;
    enum plm_status status = plm_source_open_file(&file, path, NULL, log->in_force, sink);
    if (status == PLM_STATUS_OK) {
        status = plm_source_sha256(file, log->sha256);
    }
    if (status == PLM_STATUS_OK) {
        status = plm_source_bytes(file, &log->bytes, &log->log.count);
    }
    plm_source_free(file);
    if (status == PLM_STATUS_OK) {
        status = plm_source_open_memory(&log->source, log->bytes, log->log.count, path, log->in_force, sink);
    }
    log->log.sha256 = log->sha256;
    log->log.name = strcmp(path, "-") == 0 ? "standard input" : last_part(path);
    log->log.bytes = log->bytes;
    return status;
}

/* The card as text, to be kept: up to a NUL, if there is one. */
static enum plm_status card_keep(struct plm_logbook_log *log, const struct plm_diag_sink *sink)
{
    struct plm_source *source = NULL;
    void *bytes = NULL;
    size_t count = 0;
    if (log->beside.card == NULL) {
        return PLM_STATUS_OK;
    }
    enum plm_status status = plm_source_open_regular(&source, log->beside.card_path, log->in_force, sink);
    if (status == PLM_STATUS_OK) {
        status = plm_source_bytes(source, &bytes, &count);
    }
    log->card = bytes;
    plm_source_free(source);
    return status;
}

static enum plm_status card_read(struct plm_logbook_log *log, const char *path, const char *card_path,
                                 const struct plm_diag_sink *sink)
{
    enum plm_status status = plm_companions_read(&log->beside, path, card_path, NULL, log->in_force, sink);
    if (status != PLM_STATUS_MEMORY && log->beside.card != NULL) {
        status = PLM_STATUS_OK; /* the plan that it names is not used */
    }
    return status == PLM_STATUS_OK ? card_keep(log, sink) : status;
}

/* A debrief over the log by the rules as they are kept. */
static enum plm_status debrief_open(struct plm_logbook_log *log, const struct plm_debrief_options *told,
                                    const struct plm_diag_sink *sink)
{
    struct plm_debrief_options options = *told;
    options.card = log->beside.card;
    options.dive_index = 0;
    options.import.rules = &log->rules;
    plmi_stored_options(log->logbook, &options);
    return plm_debrief_open(&log->debrief, log->source, &options, sink);
}

static enum plm_status log_open(struct plm_logbook_log *log, const char *path,
                                const struct plm_logbook_options *options, const struct plm_diag_sink *sink)
{
    enum plm_status status = rules_keep(log);
    if (status == PLM_STATUS_OK) {
        status = bytes_read(log, path, sink);
    }
    if (status == PLM_STATUS_OK) {
        status = card_read(log, path, options->card_path, sink);
    }
    if (status != PLM_STATUS_OK) {
        return status;
    }
    record_fill(log, options);
    return debrief_open(log, options->debrief, sink);
}

enum plm_status plm_logbook_log_open(struct plm_logbook_log **out, struct plm_logbook *logbook, const char *path,
                                     const struct plm_logbook_options *options, const struct plm_diag_sink *sink)
{
    struct plm_logbook_log *log = calloc(1, sizeof *log);
    *out = NULL;
    if (log == NULL) {
        plmi_logbook_tell(logbook, PLM_LEVEL_ERROR, path, "no memory to open it");
        return PLM_STATUS_MEMORY;
    }
    log->logbook = logbook;
    log->in_force = options->debrief->import.rules;
    enum plm_status status = log_open(log, path, options, sink);
    if (status != PLM_STATUS_OK) {
        plm_logbook_log_free(log);
        return status;
    }
    *out = log;
    return PLM_STATUS_OK;
}

enum plm_status plm_logbook_log_take(struct plm_logbook_log *log, struct plm_dive **out)
{
    return plm_debrief_take(log->debrief, out);
}

void plm_logbook_log_missing(struct plm_logbook_log *log, int dive_index)
{
    plm_debrief_missing(log->debrief, dive_index);
}

bool plm_logbook_log_partial(const struct plm_logbook_log *log)
{
    return plm_debrief_partial(log->debrief);
}

void plm_logbook_log_free(struct plm_logbook_log *log)
{
    if (log == NULL) {
        return;
    }
    plm_debrief_free(log->debrief);
    plm_source_free(log->source);
    plm_companions_free(&log->beside);
    free(log->card);
    free(log->bytes);
    free(log->rules_text);
    free(log);
}
