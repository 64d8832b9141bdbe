/*
 * A ledger in a folder of its own, and logs that go into it: what the tests of the logbook begin with.
 * Must not judge what comes of it: the tests do.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_UNIT_LOGBOOK_MADE_LOGBOOK_H
#define PLM_UNIT_LOGBOOK_MADE_LOGBOOK_H

#include <plimsoll/logbook.h>

#include "unit/diag_list.h"

/* Everything that a test works with. told: what was reported, anew with each log that is added. */
struct made_logbook {
    char folder[64], path[96];
    struct diag_list told;
    struct plm_diag_sink sink;
    struct plm_rules rules;
    struct plm_debrief_options debrief;
    struct plm_ledger *ledger;
    struct plm_logbook *logbook;
};

/* A log of one dive as planted_depth_m has it, open circuit on air. */
struct made_log {
    const char *name;  /* of its file */
    const char *diver; /* NULL: told by nobody */
    const char *start; /* with its zone, as 2031-05-06T09:30+11:00; NULL: told by nobody */
    int body;          /* ups and downs */
    double step_s;     /* between samples */
    double lead_s;     /* at the surface before the dive */
    double end_s;      /* of the record, since the begin of the dive; 0: a minute after it */
};

/* Makes an empty ledger and begins work on it; asserts that it goes well. */
void made_logbook_open(struct made_logbook *made);
/* Removes everything. */
void made_logbook_free(struct made_logbook *made);
/* Writes a log. again_s: [s] between the begins of two dives, whose start stands in the log; 0: one dive alone. */
void made_logbook_write(const struct made_logbook *made, const struct made_log *log, double again_s);
/* Writes a log and adds its dive, reported to told. Returns: what plm_logbook_add returns. */
enum plm_status made_logbook_add(struct made_logbook *made, const struct made_log *log,
                                 struct plm_logbook_addition *addition);
/* The same, and asserts that it goes well. */
struct plm_logbook_addition made_logbook_put(struct made_logbook *made, const struct made_log *log);
/* The path of a log. */
void made_logbook_path(const struct made_logbook *made, const char *name, char path[160]);
/* All entries; the caller frees. */
struct plm_entries *made_logbook_entries(const struct made_logbook *made);

#endif
