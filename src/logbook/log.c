/*
 * Opens a log whose dives are to be added. Must not keep anything that cannot be read again.
 * SPDX-License-Identifier: MIT
 */
#include "logbook/log.h"

#include <stdlib.h>
#include <string.h>

#include "logbook/stored.h"

/* What was stated beside the log, with what all its records have alike. */
static void record_fill(struct plm_logbook_log *log, const struct plm_logbook_options *options)
{
    const struct plm_log_options *reading = options->log;
    const struct plm_debrief_options *debrief = options->debrief;
    log->record = (struct plm_record){.log_sha256 = plm_log_sha256(log->read),
                                      .card = plm_log_card_text(log->read),
                                      .rules = log->rules_text,
                                      .stated = {.diver = options->diver,
                                                 .start = reading->start_clock,
                                                 .zone = reading->zone,
                                                 .surface_bar = debrief->surface_bar,
                                                 .altitude_m = debrief->altitude_m,
                                                 .water_kg_m3 = debrief->water_kg_m3,
                                                 .columns = reading->import.columns,
                                                 .date_order = reading->import.date_order,
                                                 .interval_s = reading->import.interval_s,
                                                 .zero_auto = reading->import.zero_auto}};
}

static const char *last_part(const char *path)
{
    const char *slash = strrchr(path, '/');
    return slash != NULL ? slash + 1 : path;
}

static enum plm_status rules_keep(struct plm_logbook_log *log, const struct plm_rules_stated *stated)
{
    struct plm_logbook *logbook = log->logbook;
    log->rules_text = plmi_kept_rules_write(log->in_force, stated);
    if (log->rules_text == NULL) {
        plmi_logbook_tell(logbook, PLM_LEVEL_ERROR, NULL, "no memory for the rules");
        return PLM_STATUS_MEMORY;
    }
    return plmi_kept_rules_read(&logbook->rules, log->rules_text, &log->rules, &log->stated, logbook->sink);
}

/* The log by the rules as they are kept, whole in memory. */
static enum plm_status log_read(struct plm_logbook_log *log, const char *path, const struct plm_log_options *stated,
                                const struct plm_diag_sink *sink)
{
    struct plm_log_options options = *stated;
    options.import.rules = &log->rules;
    options.stated = &log->stated;
    options.without_plan = true;
    options.digest = true;
    options.keep = true;
    enum plm_status status = plm_log_open(&log->read, path, &options, sink);
    if (status != PLM_STATUS_OK) {
        return status;
    }
    log->log.sha256 = plm_log_sha256(log->read);
    log->log.name = strcmp(path, "-") == 0 ? "standard input" : last_part(path);
    log->log.bytes = plm_log_bytes(log->read, &log->log.count);
    return PLM_STATUS_OK;
}

/* A debrief over the log by the rules as they are kept. */
static enum plm_status debrief_open(struct plm_logbook_log *log, const struct plm_debrief_options *stated,
                                    const struct plm_diag_sink *sink)
{
    struct plm_debrief_options options = *stated;
    options.rules = &log->rules;
    options.dive_index = 0;
    plmi_stored_options(log->logbook, &options);
    return plm_debrief_open(&log->debrief, log->read, &options, sink);
}

static enum plm_status log_open(struct plm_logbook_log *log, const char *path,
                                const struct plm_logbook_options *options, const struct plm_diag_sink *sink)
{
    enum plm_status status = rules_keep(log, options->log->stated);
    if (status == PLM_STATUS_OK) {
        status = log_read(log, path, options->log, sink);
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
    log->in_force = options->log->import.rules;
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
    return plm_log_next(log->read, out);
}

void plm_logbook_log_missing(struct plm_logbook_log *log, int dive_index)
{
    plm_log_missing(log->read, dive_index);
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
    plm_log_free(log->read);
    free(log->rules_text);
    free(log);
}
