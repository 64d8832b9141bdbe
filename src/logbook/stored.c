/*
 * Reads stored dives again, as they were read when they were added: same bytes, card, rules and words on the command
 * line. Must not look at anything that is not stored.
 * SPDX-License-Identifier: MIT
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "logbook/stored.h"

/* context: the logbook. */
static void report_loud(void *context, const struct plm_diag *diag)
{
    const struct plm_logbook *logbook = context;
    if (logbook->stored.loud && logbook->sink != NULL && logbook->sink->report != NULL) {
        logbook->sink->report(logbook->sink->context, diag);
    }
}

void plmi_stored_init(struct plm_logbook *logbook)
{
    logbook->stored = (struct plmi_stored){.sink = {report_loud, logbook}};
}

void plmi_stored_close(struct plmi_stored *stored)
{
    plm_debrief_free(stored->debrief);
    plm_log_free(stored->log);
    plm_card_free(stored->card);
    plm_source_free(stored->source);
    free(stored->bytes);
    free(stored->opened);
    free(stored->start_clock);
    free(stored->zone);
    free(stored->columns);
    free(stored->date_order);
    const struct plm_diag_sink sink = stored->sink;
    bool tell = stored->tell;
    *stored = (struct plmi_stored){.sink = sink, .tell = tell};
}

/* Returns: false without memory. */
static bool keep(char **place, const char *text)
{
    *place = text != NULL ? strdup(text) : NULL;
    return text == NULL || *place != NULL;
}

static const char *or_none(const char *text)
{
    return text != NULL ? text : "";
}

/* Two records with the same text are opened alike. Numbers stand as their bits. Returns: NULL without memory. */
static char *opening(const struct plm_record *record)
{
    const struct plm_stated *stated = &record->stated;
    const double numbers[] = {stated->surface_bar, stated->altitude_m, stated->water_kg_m3, stated->interval_s};
    unsigned char bits[sizeof numbers];
    char hex[2 * sizeof numbers + 1];
    memcpy(bits, numbers, sizeof numbers);
    for (size_t i = 0; i < sizeof numbers; i++) {
        (void)snprintf(hex + 2 * i, 3, "%02x", bits[i]);
    }
    static const char form[] = "%s\n%s\n%s\n%s\n%s\n%s\n%s\n%s\n%d";
#define PARTS                                                                                         \
    record->log_sha256, hex, or_none(stated->start), or_none(stated->zone), or_none(stated->columns), \
        or_none(stated->date_order), or_none(record->card), record->rules, stated->zero_auto
    int length = snprintf(NULL, 0, form, PARTS);
    char *text = length > 0 ? malloc((size_t)length + 1) : NULL;
    if (text != NULL) {
        (void)snprintf(text, (size_t)length + 1, form, PARTS);
    }
#undef PARTS
    return text;
}

/* The hook of the debrief: the reading is over, the replay begins. */
static bool residual_find(void *context, const struct plm_dive *dive, bool in_file, struct plm_start *start)
{
    struct plm_logbook *logbook = context;
    (void)dive;
    (void)in_file;
    logbook->stored.loud = logbook->stored.tell;
    *start = *logbook->start;
    return true;
}

void plmi_stored_options(struct plm_logbook *logbook, struct plm_debrief_options *options)
{
    options->schedules = false;
    options->review.hold = false; /* it changes no severity */
    options->review.cost = false; /* computed when somebody asks, by debrief */
    options->review.cost_for_severity = true;
    options->residual_find = residual_find;
    options->residual_context = logbook;
}

static enum plm_status card_read(struct plmi_stored *stored, const struct plm_record *record)
{
    struct plm_source *source = NULL;
    if (record->card == NULL) {
        return PLM_STATUS_OK;
    }
    enum plm_status status = plm_source_open_memory(&source, record->card, strlen(record->card), "card of the ledger",
                                                    &stored->rules, &stored->sink);
    if (status == PLM_STATUS_OK) {
        status = plm_card_read(&stored->card, source, &stored->rules, &stored->sink);
    }
    plm_source_free(source);
    return status;
}

static enum plm_status debrief_open(struct plm_logbook *logbook, const struct plm_record *record)
{
    struct plmi_stored *stored = &logbook->stored;
    const struct plm_stated *stated = &record->stated;
    if (!keep(&stored->start_clock, stated->start) || !keep(&stored->zone, stated->zone) ||
        !keep(&stored->columns, stated->columns) || !keep(&stored->date_order, stated->date_order)) {
        return PLM_STATUS_MEMORY;
    }
    struct plm_log_options reading = plm_log_options_default(&stored->rules);
    struct plm_debrief_options options = plm_debrief_options_default(&stored->rules);
    reading.import.columns = stored->columns;
    reading.import.interval_s = stated->interval_s;
    reading.import.date_order = stored->date_order;
    reading.import.zero_auto = stated->zero_auto;
    reading.start_clock = stored->start_clock;
    reading.zone = stored->zone;
    reading.card = stored->card;
    reading.stated = &stored->stated;
    reading.digest = true;
    options.surface_bar = stated->surface_bar;
    options.altitude_m = stated->altitude_m;
    options.water_kg_m3 = stated->water_kg_m3;
    plmi_stored_options(logbook, &options);
    enum plm_status status = plm_log_open_source(&stored->log, stored->source, &reading, &stored->sink);
    return status == PLM_STATUS_OK ? plm_debrief_open(&stored->debrief, stored->log, &options, &stored->sink) : status;
}

/* Opens the record's log; takes key. */
static enum plm_status stored_open(struct plm_logbook *logbook, const struct plm_record *record, char *key)
{
    struct plmi_stored *stored = &logbook->stored;
    size_t count = 0;
    plmi_stored_close(stored);
    stored->opened = key;
    enum plm_status status = plm_ledger_log_get(logbook->ledger, record->log_sha256, &stored->bytes, &count);
    if (status == PLM_STATUS_OK) {
        status = plmi_kept_rules_read(&logbook->rules, record->rules, &stored->rules, &stored->stated, logbook->sink);
    }
    if (status == PLM_STATUS_OK) {
        status = card_read(stored, record);
    }
    if (status == PLM_STATUS_OK) {
        status = plm_source_open_memory(&stored->source, stored->bytes, count, record->log_name, &stored->rules,
                                        &stored->sink);
    }
    return status == PLM_STATUS_OK ? debrief_open(logbook, record) : status;
}

/* Opens what has to be opened, at the dive's place or before it. */
static enum plm_status stored_reach(struct plm_logbook *logbook, const struct plm_record *record)
{
    struct plmi_stored *stored = &logbook->stored;
    char *key = opening(record);
    stored->loud = false;
    if (key == NULL) {
        return PLM_STATUS_MEMORY;
    }
    if (stored->debrief == NULL || strcmp(stored->opened, key) != 0 || stored->index >= record->log_index) {
        return stored_open(logbook, record, key);
    }
    free(key);
    return PLM_STATUS_OK;
}

/* Takes dives up to the one whose place in the log is the record's. END: it is not there. */
static enum plm_status stored_take(struct plm_logbook *logbook, const struct plm_record *record, struct plm_dive **out)
{
    struct plmi_stored *stored = &logbook->stored;
    enum plm_status status = stored_reach(logbook, record);
    while (status == PLM_STATUS_OK && stored->index < record->log_index) {
        plm_dive_free(*out);
        *out = NULL;
        status = plm_log_next(stored->log, out);
        stored->index = status == PLM_STATUS_OK ? plm_dive_info_get(*out)->index : stored->index;
    }
    if (status == PLM_STATUS_OK && stored->index == record->log_index) {
        return status;
    }
    plm_dive_free(*out);
    *out = NULL;
    return status == PLM_STATUS_OK ? PLM_STATUS_END : status;
}

/* What cannot be read again is reported, whatever was the matter. */
static enum plm_status stored_result(struct plm_logbook *logbook, const struct plm_record *record,
                                     enum plm_status status)
{
    if (status == PLM_STATUS_OK) {
        return status;
    }
    plmi_stored_close(&logbook->stored);
    plmi_logbook_tell(logbook, PLM_LEVEL_ERROR, record->log_name,
                      "dive %d of the stored log %.12s cannot be read again", record->log_index, record->log_sha256);
    return status == PLM_STATUS_END ? PLM_STATUS_INPUT : status;
}

enum plm_status plm_logbook_dive(struct plm_logbook *logbook, const struct plm_record *record, struct plm_dive **out)
{
    *out = NULL;
    return stored_result(logbook, record, stored_take(logbook, record, out));
}

enum plm_status plmi_stored_debrief(struct plm_logbook *logbook, const struct plm_record *record,
                                    const struct plm_start *start, struct plm_debriefed **out)
{
    struct plmi_at_hand *hand = &logbook->at_hand;
    struct plm_dive *dive = hand->dive;
    *out = NULL;
    if (dive != NULL && hand->log_index == record->log_index && strcmp(hand->log_sha256, record->log_sha256) == 0) {
        hand->dive = NULL;
        logbook->start = start;
        return plm_debrief_run(hand->debrief, dive, out);
    }
    dive = NULL;
    enum plm_status status = stored_take(logbook, record, &dive);
    logbook->start = start;
    if (status == PLM_STATUS_OK) {
        status = plm_debrief_run(logbook->stored.debrief, dive, out);
    }
    return stored_result(logbook, record, status);
}
