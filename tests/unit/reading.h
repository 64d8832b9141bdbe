/*
 * For tests: a whole input read into its dives, with what was told. Must not judge: the tests do.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_UNIT_READING_H
#define PLM_UNIT_READING_H

#include <plimsoll/log.h>
#include <string.h>

#include "unit/diag_list.h"

#define READING_DIVES 40

struct reading {
    struct plm_rules rules;
    struct plm_import_options options; /* to be filled before reading; rules are set */
    struct diag_list told;
    struct plm_dive *dives[READING_DIVES];
    int count;              /* dives read, kept or not */
    enum plm_status status; /* END, or what went wrong */
    bool partial;
    char format[32];
};

static inline void reading_init(struct reading *reading)
{
    memset(reading, 0, sizeof *reading);
    reading->rules = plm_rules_default();
    reading->options.rules = &reading->rules;
}

static inline void reading_take(struct reading *reading, struct plm_source *source, const struct plm_diag_sink *sink)
{
    struct plm_log_options options = plm_log_options_default(&reading->rules);
    struct plm_log *log = NULL;
    struct plm_dive *dive = NULL;
    options.import = reading->options;
    reading->count = 0;
    reading->status = plm_log_open_source(&log, source, &options, sink);
    while (reading->status == PLM_STATUS_OK && (reading->status = plm_log_next(log, &dive)) == PLM_STATUS_OK) {
        if (reading->count < READING_DIVES) {
            reading->dives[reading->count] = dive;
        } else {
            plm_dive_free(dive);
        }
        reading->count++;
    }
    if (log != NULL) {
        const char *format = plm_log_verdict(log)->format;
        size_t n = strlen(format) < sizeof reading->format - 1 ? strlen(format) : sizeof reading->format - 1;
        memcpy(reading->format, format, n);
        reading->partial = plm_log_partial(log);
    }
    plm_log_free(log);
}

/* Reads bytes; the file is called "t". */
static inline void reading_bytes(struct reading *reading, const void *bytes, size_t n)
{
    struct plm_diag_sink sink = diag_list_sink(&reading->told);
    struct plm_source *source = NULL;
    reading->status = plm_source_open_memory(&source, bytes, n, "t", &reading->rules, &sink);
    if (reading->status == PLM_STATUS_OK) {
        reading_take(reading, source, &sink);
    }
    plm_source_free(source);
}

static inline void reading_text(struct reading *reading, const char *text)
{
    reading_bytes(reading, text, strlen(text));
}

static inline void reading_file(struct reading *reading, const char *path)
{
    struct plm_diag_sink sink = diag_list_sink(&reading->told);
    struct plm_source *source = NULL;
    reading->status = plm_source_open_file(&source, path, "t", &reading->rules, &sink);
    if (reading->status == PLM_STATUS_OK) {
        reading_take(reading, source, &sink);
    }
    plm_source_free(source);
}

static inline void reading_free(struct reading *reading)
{
    for (int i = 0; i < reading->count && i < READING_DIVES; i++) {
        plm_dive_free(reading->dives[i]);
    }
    reading->count = 0;
}

#endif
