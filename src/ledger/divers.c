/*
 * Divers by their names: one for all spellings that mean the same, and a word about those that nearly do.
 * SPDX-License-Identifier: MIT
 */
#include <plimsoll/names.h>

#include <stdlib.h>
#include <string.h>

#include "ledger/ledger.h"

enum plm_status plmi_ledger_bind_diver(struct plm_ledger *ledger, sqlite3_stmt *statement, int place, const char *diver)
{
    char *key = plm_name_key(diver);
    if (key == NULL) {
        plmi_ledger_done(statement);
        return plmi_ledger_no_memory(ledger);
    }
    free(ledger->diver_key);
    ledger->diver_key = key;
    plmi_ledger_bind_text(statement, place, key);
    return PLM_STATUS_OK;
}

static enum plm_status name_put(struct plm_ledger *ledger, const char *name)
{
    sqlite3_stmt *statement = plmi_ledger_statement(ledger, PLMI_STATEMENT_DIVER_PUT);
    enum plm_status status = statement != NULL ? plmi_ledger_bind_diver(ledger, statement, 1, name) : PLM_STATUS_IO;
    if (status != PLM_STATUS_OK) {
        return status;
    }
    plmi_ledger_bind_text(statement, 2, name);
    return plmi_ledger_run(ledger, statement);
}

/* Tells of those whom a new name could mean as well. */
static enum plm_status tell_alike(struct plm_ledger *ledger, const char *name)
{
    sqlite3_stmt *row = plmi_ledger_statement(ledger, PLMI_STATEMENT_DIVER_NAMES);
    int code = SQLITE_DONE;
    while (row != NULL && (code = sqlite3_step(row)) == SQLITE_ROW) {
        const char *known = (const char *)sqlite3_column_text(row, 0);
        if (known != NULL && plm_name_alike(known, name)) {
            plmi_diags_add(&ledger->diags, PLM_LEVEL_WARNING, PLM_DIAG_DIVER_NAME, 0, 0,
                           "'%s' differs from '%s', whom the ledger knows, by accents alone: they are kept as two "
                           "divers; if they are one, remove the"
                           " dive and add it again with --diver or a card that says '%s'",
                           name, known, known);
        }
    }
    enum plm_status status = row == NULL           ? PLM_STATUS_IO
                             : code == SQLITE_DONE ? PLM_STATUS_OK
                                                   : plmi_ledger_failed(ledger);
    if (row != NULL) {
        plmi_ledger_done(row);
    }
    return status;
}

/* Tells that a name stands for a diver who is spelled otherwise, once as long as it comes again. */
static void tell_spelling(struct plm_ledger *ledger, const char *name, const char *known)
{
    if (strcmp(name, known) == 0 || (ledger->stated_name != NULL && strcmp(name, ledger->stated_name) == 0)) {
        return;
    }
    free(ledger->stated_name);
    ledger->stated_name = strdup(name); /* without memory it is reported again */
    plmi_diags_add(&ledger->diags, PLM_LEVEL_WARNING, PLM_DIAG_DIVER_NAME, 0, 0,
                   "'%s' is taken for '%s', whom the ledger knows: case makes no other diver; if it is another one, "
                   "remove the dive and add it again with"
                   " --diver or a card that says another name",
                   name, known);
}

/* Whether the diver is there; who is spelled otherwise is reported on. */
static enum plm_status find(struct plm_ledger *ledger, const char *name, bool *there)
{
    sqlite3_stmt *row = plmi_ledger_statement(ledger, PLMI_STATEMENT_DIVER_NAME);
    enum plm_status status = row != NULL ? plmi_ledger_bind_diver(ledger, row, 1, name) : PLM_STATUS_IO;
    if (status != PLM_STATUS_OK) {
        return status;
    }
    int code = sqlite3_step(row);
    const char *known = code == SQLITE_ROW ? (const char *)sqlite3_column_text(row, 0) : NULL;
    *there = code == SQLITE_ROW;
    if (known != NULL) {
        tell_spelling(ledger, name, known);
    }
    status = code == SQLITE_ROW || code == SQLITE_DONE ? PLM_STATUS_OK : plmi_ledger_failed(ledger);
    plmi_ledger_done(row);
    return status;
}

enum plm_status plmi_ledger_diver_put(struct plm_ledger *ledger, const char *diver)
{
    bool there = false;
    if (plm_name_same(diver, "")) {
        plmi_diags_add(&ledger->diags, PLM_LEVEL_ERROR, PLM_DIAG_LEDGER, 0, 0,
                       "a dive without the name of its diver; it is not added");
        return PLM_STATUS_INPUT;
    }
    char *name = plm_name_normal(diver);
    enum plm_status status = name != NULL ? find(ledger, name, &there) : plmi_ledger_no_memory(ledger);
    if (status == PLM_STATUS_OK && !there) {
        status = tell_alike(ledger, name);
    }
    if (status == PLM_STATUS_OK && !there) {
        status = name_put(ledger, name);
    }
    free(name);
    return status;
}

/* Whether a row of names and keys is as plmi_ledger_diver_put makes it. */
static bool fits(const char *name, size_t name_bytes, const char *key, size_t key_bytes)
{
    char *normal = plm_name_normal(name), *wanted = plm_name_key(name);
    bool same = normal != NULL && wanted != NULL && name != NULL && key != NULL && strlen(name) == name_bytes &&
                strlen(key) == key_bytes && strcmp(name, normal) == 0 && strcmp(key, wanted) == 0;
    free(normal);
    free(wanted);
    return same;
}

enum plm_status plmi_ledger_check_divers(struct plm_ledger *ledger)
{
    sqlite3_stmt *row = plmi_ledger_statement(ledger, PLMI_STATEMENT_DIVER_NAMES);
    enum plm_status status = row != NULL ? PLM_STATUS_OK : PLM_STATUS_IO;
    int code = SQLITE_DONE;
    while (row != NULL && (code = sqlite3_step(row)) == SQLITE_ROW) {
        const char *name = (const char *)sqlite3_column_text(row, 0), *key = (const char *)sqlite3_column_text(row, 1);
        if (fits(name, (size_t)sqlite3_column_bytes(row, 0), key, (size_t)sqlite3_column_bytes(row, 1))) {
            continue;
        }
        plmi_diags_add(&ledger->diags, PLM_LEVEL_ERROR, PLM_DIAG_LEDGER, 0, 0,
                       "the name of a diver does not fit what it is found by: %.200s", name != NULL ? name : "?");
        status = PLM_STATUS_INPUT;
    }
    if (row != NULL && code != SQLITE_DONE) {
        status = plmi_ledger_failed(ledger);
    }
    if (row != NULL) {
        plmi_ledger_done(row);
    }
    return status;
}
