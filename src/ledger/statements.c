/*
 * Statements, prepared when first asked for; what is bound to them and read from their rows.
 * Must not know what the columns mean.
 * SPDX-License-Identifier: MIT
 */
#include "ledger/ledger.h"

#include <math.h>
#include <string.h>

static const char *const SQL[PLMI_STATEMENT_COUNT] = {
#define PLMI_STATEMENT(name, sql) [PLMI_STATEMENT_##name] = sql,
#include "ledger/statements.def"
#undef PLMI_STATEMENT
};

sqlite3_stmt *plmi_ledger_statement(struct plm_ledger *ledger, enum plmi_statement which)
{
    sqlite3_stmt **statement = &ledger->statements[which];
    if (*statement == NULL &&
        sqlite3_prepare_v3(ledger->db, SQL[which], -1, SQLITE_PREPARE_PERSISTENT, statement, NULL) != SQLITE_OK) {
        (void)plmi_ledger_failed(ledger);
        return NULL;
    }
    return *statement;
}

void plmi_ledger_done(sqlite3_stmt *statement)
{
    (void)sqlite3_reset(statement);
    (void)sqlite3_clear_bindings(statement);
}

enum plm_status plmi_ledger_run(struct plm_ledger *ledger, sqlite3_stmt *statement)
{
    enum plm_status status = sqlite3_step(statement) == SQLITE_DONE ? PLM_STATUS_OK : plmi_ledger_failed(ledger);
    plmi_ledger_done(statement);
    return status;
}

void plmi_ledger_bind_text(sqlite3_stmt *statement, int place, const char *text)
{
    if (text != NULL) {
        (void)sqlite3_bind_text(statement, place, text, -1, SQLITE_STATIC);
    } else {
        (void)sqlite3_bind_null(statement, place);
    }
}

void plmi_ledger_bind_number(sqlite3_stmt *statement, int place, double value)
{
    if (isnan(value)) {
        (void)sqlite3_bind_null(statement, place);
    } else {
        (void)sqlite3_bind_double(statement, place, value);
    }
}

double plmi_ledger_number(sqlite3_stmt *statement, int column)
{
    return sqlite3_column_type(statement, column) == SQLITE_NULL ? (double)NAN
                                                                 : sqlite3_column_double(statement, column);
}

const char *plmi_ledger_text(sqlite3_stmt *statement, int column, struct plmi_arena *arena, bool *failed)
{
    const char *text = (const char *)sqlite3_column_text(statement, column);
    if (text == NULL) {
        return NULL;
    }
    const char *copy = plmi_arena_text(arena, text, strlen(text));
    *failed = *failed || copy == NULL;
    return copy;
}

void plmi_tissue_pack(unsigned char bytes[PLMI_TISSUE_BYTES], const struct plm_tissue *tissue)
{
    for (int i = 0; i < 2 * PLM_COMPARTMENTS; i++) {
        double value = i < PLM_COMPARTMENTS ? tissue->n2_bar[i] : tissue->he_bar[i - PLM_COMPARTMENTS];
        uint64_t bits;
        memcpy(&bits, &value, sizeof bits);
        for (int k = 0; k < 8; k++) {
            bytes[8 * i + k] = (unsigned char)(bits >> (8 * k));
        }
    }
}

void plmi_tissue_unpack(struct plm_tissue *tissue, const unsigned char bytes[PLMI_TISSUE_BYTES])
{
    for (int i = 0; i < 2 * PLM_COMPARTMENTS; i++) {
        uint64_t bits = 0;
        double value;
        for (int k = 0; k < 8; k++) {
            bits |= (uint64_t)bytes[8 * i + k] << (8 * k);
        }
        memcpy(&value, &bits, sizeof value);
        if (i < PLM_COMPARTMENTS) {
            tissue->n2_bar[i] = value;
        } else {
            tissue->he_bar[i - PLM_COMPARTMENTS] = value;
        }
    }
}
