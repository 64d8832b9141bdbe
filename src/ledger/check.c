/*
 * Looks whether a ledger is sound. Must not put anything right.
 * SPDX-License-Identifier: MIT
 */
#include "ledger/ledger.h"

#include <string.h>
#include <sys/stat.h>

/* Each row of these is a fault; its first column says which dive, log or page, "ok" says that there is none. */
static const struct {
    const char *sql, *what;
} FAULTS[] = {
    {"PRAGMA integrity_check", "the file is damaged"},
    {"PRAGMA foreign_key_check", "something named is not there, in table"},
    {"SELECT id FROM exposure WHERE id NOT IN (SELECT exposure FROM record WHERE best = 1)",
     "no record stands for dive"},
    {"SELECT id FROM exposure WHERE id NOT IN (SELECT exposure FROM figures)", "no figures are there for dive"},
    {"SELECT e.id FROM exposure e JOIN record r ON r.exposure = e.id AND r.best = 1 JOIN figures f ON f.exposure = e.id"
     " WHERE e.start_utc_ms <> r.start_utc_ms OR e.offset_min <> r.offset_min OR e.duration_ms <> r.duration_ms"
     " OR e.wet_from_ms <> r.wet_from_ms OR e.wet_to_ms <> r.wet_to_ms OR f.rules <> r.rules",
     "its record says otherwise than what is stored of dive"},
    {"SELECT id FROM (SELECT id, start_utc_ms + wet_from_ms AS down, max(start_utc_ms + wet_to_ms) OVER (PARTITION BY "
     "diver"
     " ORDER BY start_utc_ms + wet_from_ms, id ROWS BETWEEN UNBOUNDED PRECEDING AND 1 PRECEDING) AS up FROM exposure) "
     "WHERE down < up",
     "the diver was in the water already at the start of dive"},
};

/* Rows of a query that should have none. */
static enum plm_status look_for(struct plm_ledger *ledger, const char *sql, const char *what)
{
    sqlite3_stmt *statement = NULL;
    enum plm_status status = PLM_STATUS_OK;
    int code = sqlite3_prepare_v2(ledger->db, sql, -1, &statement, NULL);
    while (code == SQLITE_OK || code == SQLITE_ROW) {
        code = sqlite3_step(statement);
        const char *text = code == SQLITE_ROW ? (const char *)sqlite3_column_text(statement, 0) : NULL;
        if (code == SQLITE_ROW && !(text != NULL && strcmp(text, "ok") == 0)) {
            plmi_diags_add(&ledger->diags, PLM_LEVEL_ERROR, PLM_DIAG_LEDGER, 0, 0, "%s: %.200s", what,
                           text != NULL ? text : "?");
            status = PLM_STATUS_INPUT;
        }
    }
    if (code != SQLITE_DONE) {
        status = plmi_ledger_failed(ledger);
    }
    (void)sqlite3_finalize(statement);
    return status;
}

/* A ledger is about persons; who keeps it open to others may mean it, so this is no fault. */
static void tell_mode(struct plm_ledger *ledger)
{
    struct stat about;
    if (stat(ledger->path, &about) == 0 && (about.st_mode & (S_IRWXG | S_IRWXO)) != 0) {
        plmi_diags_add(&ledger->diags, PLM_LEVEL_NOTE, PLM_DIAG_LEDGER, 0, 0,
                       "others on this computer may open it (mode %04o); chmod 600 keeps it to its owner",
                       (unsigned)(about.st_mode & 0777));
    }
}

enum plm_status plm_ledger_check(struct plm_ledger *ledger)
{
    enum plm_status worst = PLM_STATUS_OK;
    for (size_t i = 0; i < sizeof FAULTS / sizeof FAULTS[0]; i++) {
        enum plm_status status = look_for(ledger, FAULTS[i].sql, FAULTS[i].what);
        worst = worst == PLM_STATUS_OK ? status : worst;
    }
    enum plm_status (*const walks[])(struct plm_ledger *) = {plmi_ledger_check_divers, plmi_ledger_check_entries,
                                                             plmi_ledger_check_records, plmi_ledger_check_logs};
    for (size_t i = 0; i < sizeof walks / sizeof walks[0]; i++) {
        enum plm_status status = walks[i](ledger);
        worst = worst == PLM_STATUS_OK ? status : worst;
    }
    tell_mode(ledger);
    return worst;
}
