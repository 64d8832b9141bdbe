/*
 * Reads stored dives again, as they were read when they were added: same bytes, card, rules and words on the command
 * line. Must not look at anything that is not stored.
 * SPDX-License-Identifier: MIT
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "cli/ledger.h"

void plmi_cli_reader_close(struct plmi_cli_reader *reader)
{
    plm_debrief_free(reader->debrief);
    plm_card_free(reader->card);
    plm_source_free(reader->source);
    free(reader->bytes);
    free(reader->opened);
    free(reader->start_clock);
    free(reader->zone);
    free(reader->columns);
    free(reader->date_order);
    const struct plm_diag_sink sink = reader->sink;
    bool tell = reader->tell;
    *reader = (struct plmi_cli_reader){.sink = sink, .tell = tell};
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
    const struct plm_told *told = &record->told;
    const double numbers[] = {told->surface_bar, told->altitude_m, told->water_kg_m3, told->interval_s};
    unsigned char bits[sizeof numbers];
    char hex[2 * sizeof numbers + 1];
    memcpy(bits, numbers, sizeof numbers);
    for (size_t i = 0; i < sizeof numbers; i++) {
        (void)snprintf(hex + 2 * i, 3, "%02x", bits[i]);
    }
    static const char form[] = "%s\n%s\n%s\n%s\n%s\n%s\n%s\n%s\n%d";
#define PARTS                                                                                   \
    record->log_sha256, hex, or_none(told->start), or_none(told->zone), or_none(told->columns), \
        or_none(told->date_order), or_none(record->card), record->rules, told->zero_auto
    int length = snprintf(NULL, 0, form, PARTS);
    char *text = length > 0 ? malloc((size_t)length + 1) : NULL;
    if (text != NULL) {
        (void)snprintf(text, (size_t)length + 1, form, PARTS);
    }
#undef PARTS
    return text;
}

/* The hook of the debrief: the reading is over, the replay begins. */
static bool carried(void *context, const struct plm_dive *dive, bool in_file, struct plm_start *start)
{
    struct plmi_cli_reader *reader = context;
    (void)dive;
    (void)in_file;
    reader->loud = reader->tell;
    *start = *reader->start;
    return true;
}

void plmi_cli_reader_carries(struct plmi_cli_ledger *ledger, struct plm_debrief_options *options)
{
    options->schedules = false;
    options->review.hold = false; /* it changes no severity */
    options->review.cost = false; /* told when somebody asks, by debrief */
    options->review.cost_for_severity = true;
    options->carried = carried;
    options->carried_context = &ledger->reader;
}

enum plm_status plmi_cli_reader_rules(struct plmi_cli_ledger *ledger, const char *text, struct plm_rules *rules)
{
    struct plm_source *source = NULL;
    const struct plm_rules defaults = plm_rules_default();
    const struct plm_diag_sink *sink = &ledger->call->talk.sink;
    if (ledger->rules_text != NULL && strcmp(ledger->rules_text, text) == 0) {
        *rules = ledger->rules;
        return PLM_STATUS_OK;
    }
    *rules = defaults;
    enum plm_status status =
        plm_source_open_memory(&source, text, strlen(text), "rules of the ledger", &defaults, sink);
    if (status == PLM_STATUS_OK) {
        status = plm_rules_read(rules, NULL, source, sink);
    }
    plm_source_free(source);
    free(ledger->rules_text);
    ledger->rules_text = status == PLM_STATUS_OK ? strdup(text) : NULL;
    ledger->rules = *rules;
    return status;
}

static enum plm_status card_read(struct plmi_cli_reader *reader, const struct plm_record *record)
{
    struct plm_source *source = NULL;
    if (record->card == NULL) {
        return PLM_STATUS_OK;
    }
    enum plm_status status = plm_source_open_memory(&source, record->card, strlen(record->card), "card of the ledger",
                                                    &reader->rules, &reader->sink);
    if (status == PLM_STATUS_OK) {
        status = plm_card_read(&reader->card, source, &reader->rules, &reader->sink);
    }
    plm_source_free(source);
    return status;
}

static enum plm_status debrief_open(struct plmi_cli_ledger *ledger, const struct plm_record *record)
{
    struct plmi_cli_reader *reader = &ledger->reader;
    const struct plm_told *told = &record->told;
    if (!keep(&reader->start_clock, told->start) || !keep(&reader->zone, told->zone) ||
        !keep(&reader->columns, told->columns) || !keep(&reader->date_order, told->date_order)) {
        return PLM_STATUS_MEMORY;
    }
    struct plm_debrief_options options = plm_debrief_options_default(&reader->rules);
    options.import.columns = reader->columns;
    options.import.interval_s = told->interval_s;
    options.import.date_order = reader->date_order;
    options.import.zero_auto = told->zero_auto;
    options.surface_bar = told->surface_bar;
    options.altitude_m = told->altitude_m;
    options.water_kg_m3 = told->water_kg_m3;
    options.start_clock = reader->start_clock;
    options.zone = reader->zone;
    options.card = reader->card;
    plmi_cli_reader_carries(ledger, &options);
    return plm_debrief_open(&reader->debrief, reader->source, &options, &reader->sink);
}

/* Opens the record's log; takes key. */
static enum plm_status reader_open(struct plmi_cli_ledger *ledger, const struct plm_record *record, char *key)
{
    struct plmi_cli_reader *reader = &ledger->reader;
    size_t count = 0;
    plmi_cli_reader_close(reader);
    reader->opened = key;
    enum plm_status status = plm_ledger_log_get(ledger->file, record->log_sha256, &reader->bytes, &count);
    if (status == PLM_STATUS_OK) {
        status = plmi_cli_reader_rules(ledger, record->rules, &reader->rules);
    }
    if (status == PLM_STATUS_OK) {
        status = card_read(reader, record);
    }
    if (status == PLM_STATUS_OK) {
        status = plm_source_open_memory(&reader->source, reader->bytes, count, record->log_name, &reader->rules,
                                        &reader->sink);
    }
    return status == PLM_STATUS_OK ? debrief_open(ledger, record) : status;
}

/* Opens what has to be opened, at the dive's place or before it. */
static enum plm_status reader_reach(struct plmi_cli_ledger *ledger, const struct plm_record *record)
{
    struct plmi_cli_reader *reader = &ledger->reader;
    char *key = opening(record);
    reader->loud = false;
    if (key == NULL) {
        return PLM_STATUS_MEMORY;
    }
    if (reader->debrief == NULL || strcmp(reader->opened, key) != 0 || reader->index >= record->log_index) {
        return reader_open(ledger, record, key);
    }
    free(key);
    return PLM_STATUS_OK;
}

/* Takes dives up to the one whose place in the log is the record's. END: it is not there. */
static enum plm_status reader_take(struct plmi_cli_ledger *ledger, const struct plm_record *record,
                                   struct plm_dive **out)
{
    struct plmi_cli_reader *reader = &ledger->reader;
    enum plm_status status = reader_reach(ledger, record);
    while (status == PLM_STATUS_OK && reader->index < record->log_index) {
        plm_dive_free(*out);
        *out = NULL;
        status = plm_debrief_take(reader->debrief, out);
        reader->index = status == PLM_STATUS_OK ? plm_dive_info_get(*out)->index : reader->index;
    }
    if (status == PLM_STATUS_OK && reader->index == record->log_index) {
        return status;
    }
    plm_dive_free(*out);
    *out = NULL;
    return status == PLM_STATUS_OK ? PLM_STATUS_END : status;
}

/* What cannot be read again is told, whatever was the matter. */
static enum plm_status reader_result(struct plmi_cli_ledger *ledger, const struct plm_record *record,
                                     enum plm_status status)
{
    if (status == PLM_STATUS_OK) {
        return status;
    }
    plmi_cli_reader_close(&ledger->reader);
    plmi_cli_ledger_tell(ledger, PLM_LEVEL_ERROR, record->log_name,
                         "dive %d of the stored log %.12s cannot be read again", record->log_index, record->log_sha256);
    return status == PLM_STATUS_END ? PLM_STATUS_INPUT : status;
}

enum plm_status plmi_cli_reader_dive(struct plmi_cli_ledger *ledger, const struct plm_record *record,
                                     struct plm_dive **out)
{
    *out = NULL;
    return reader_result(ledger, record, reader_take(ledger, record, out));
}

enum plm_status plmi_cli_reader_debrief(struct plmi_cli_ledger *ledger, const struct plm_record *record,
                                        const struct plm_start *start, struct plm_debriefed **out)
{
    struct plmi_cli_hand *hand = &ledger->hand;
    struct plm_dive *dive = hand->dive;
    *out = NULL;
    if (dive != NULL && hand->log_index == record->log_index && strcmp(hand->log_sha256, record->log_sha256) == 0) {
        hand->dive = NULL;
        ledger->reader.start = start;
        return plm_debrief_dive(hand->debrief, dive, out);
    }
    dive = NULL;
    enum plm_status status = reader_take(ledger, record, &dive);
    ledger->reader.start = start; /* opening a log forgets it */
    if (status == PLM_STATUS_OK) {
        status = plm_debrief_dive(ledger->reader.debrief, dive, out);
    }
    return reader_result(ledger, record, status);
}
