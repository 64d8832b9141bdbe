/*
 * The logs themselves: compressed bytes under the hash of what they were.
 * SPDX-License-Identifier: MIT
 */
#include "ledger/ledger.h"

#include <sha2.h>
#include <stdlib.h>
#include <string.h>
#include <zlib.h>

/* No log is larger; a damaged size is not asked of memory. */
#define LOG_MAX_BYTES ((int64_t)1 << 32)

static enum plm_status no_memory(struct plm_ledger *ledger)
{
    plmi_report_add(&ledger->report, PLM_LEVEL_ERROR, PLM_DIAG_MEMORY, 0, 0, "no memory for a log");
    return PLM_STATUS_MEMORY;
}

enum plm_status plm_ledger_log_put(struct plm_ledger *ledger, const struct plm_ledger_log *log)
{
    uLongf packed_count = compressBound((uLong)log->count);
    Bytef *packed = malloc(packed_count);
    if (!packed || compress2(packed, &packed_count, log->bytes, (uLong)log->count, 6) != Z_OK) {
        free(packed);
        return no_memory(ledger);
    }
    enum plm_status status = PLM_STATUS_IO;
    sqlite3_stmt *statement = plmi_ledger_statement(ledger, PLMI_STATEMENT_LOG_PUT);
    if (statement) {
        plmi_ledger_bind_text(statement, 1, log->sha256);
        plmi_ledger_bind_text(statement, 2, log->name);
        (void)sqlite3_bind_int64(statement, 3, (sqlite3_int64)log->count);
        (void)sqlite3_bind_blob64(statement, 4, packed, packed_count, SQLITE_TRANSIENT);
        status = plmi_ledger_run(ledger, statement);
    }
    free(packed);
    return status;
}

static bool right_hash(const void *bytes, size_t count, const char *sha256)
{
    char hex[SHA256_DIGEST_STRING_LENGTH];
    return SHA256Data(bytes, count, hex) && strcmp(hex, sha256) == 0;
}

static enum plm_status damaged(struct plm_ledger *ledger, const char *sha256)
{
    plmi_report_add(&ledger->report, PLM_LEVEL_ERROR, PLM_DIAG_LEDGER, 0, 0, "the stored log %.12s does not match its hash; add it again from its file",
                    sha256);
    return PLM_STATUS_INPUT;
}

/* Inflates and checks; *bytes is on the heap. */
static enum plm_status unpack(struct plm_ledger *ledger, const char *sha256, int64_t size, const void *packed, size_t packed_count, void **bytes,
                              size_t *count)
{
    if (size < 0 || size > LOG_MAX_BYTES || !packed)
        return damaged(ledger, sha256);
    uLongf plain_count = (uLongf)size;
    Bytef *plain = malloc((size_t)size + 1);
    if (!plain)
        return no_memory(ledger);
    int code = uncompress(plain, &plain_count, packed, (uLong)packed_count);
    if (code != Z_OK || plain_count != (uLongf)size || !right_hash(plain, plain_count, sha256)) {
        free(plain);
        return damaged(ledger, sha256);
    }
    *bytes = plain;
    *count = plain_count;
    return PLM_STATUS_OK;
}

enum plm_status plm_ledger_log_get(struct plm_ledger *ledger, const char *sha256, void **bytes, size_t *count)
{
    sqlite3_stmt *statement = plmi_ledger_statement(ledger, PLMI_STATEMENT_LOG_GET);
    *bytes = NULL;
    *count = 0;
    if (!statement)
        return PLM_STATUS_IO;
    plmi_ledger_bind_text(statement, 1, sha256);
    enum plm_status status;
    int code = sqlite3_step(statement);
    if (code == SQLITE_ROW) {
        const void *packed = sqlite3_column_blob(statement, 1);
        status = unpack(ledger, sha256, sqlite3_column_int64(statement, 0), packed, (size_t)sqlite3_column_bytes(statement, 1), bytes, count);
    } else {
        status = code == SQLITE_DONE ? damaged(ledger, sha256) : plmi_ledger_failed(ledger);
    }
    plmi_ledger_done(statement);
    return status;
}

enum plm_status plm_ledger_log_name(struct plm_ledger *ledger, const char *sha256, char *name, size_t size)
{
    sqlite3_stmt *statement = plmi_ledger_statement(ledger, PLMI_STATEMENT_LOG_NAME);
    name[0] = '\0';
    if (!statement)
        return PLM_STATUS_IO;
    plmi_ledger_bind_text(statement, 1, sha256);
    int code = sqlite3_step(statement);
    if (code == SQLITE_ROW)
        (void)sqlite3_snprintf((int)size, name, "%s", plmi_ledger_text(statement, 0));
    enum plm_status status = code == SQLITE_ROW || code == SQLITE_DONE ? PLM_STATUS_OK : plmi_ledger_failed(ledger);
    plmi_ledger_done(statement);
    return status;
}

bool plm_ledger_has(struct plm_ledger *ledger, const char *sha256, int log_index)
{
    sqlite3_stmt *statement = plmi_ledger_statement(ledger, PLMI_STATEMENT_HAS);
    if (!statement)
        return false;
    plmi_ledger_bind_text(statement, 1, sha256);
    (void)sqlite3_bind_int(statement, 2, log_index);
    bool has = sqlite3_step(statement) == SQLITE_ROW;
    plmi_ledger_done(statement);
    return has;
}

/* Every log against its hash; goes on after a damaged one. */
static enum plm_status check_logs(struct plm_ledger *ledger)
{
    enum plm_status worst = PLM_STATUS_OK;
    sqlite3_stmt *statement = plmi_ledger_statement(ledger, PLMI_STATEMENT_LOGS);
    if (!statement)
        return PLM_STATUS_IO;
    int code;
    while ((code = sqlite3_step(statement)) == SQLITE_ROW) {
        void *bytes = NULL;
        size_t count = 0;
        const char *sha256 = plmi_ledger_text(statement, 0);
        enum plm_status status = unpack(ledger, sha256 ? sha256 : "", sqlite3_column_int64(statement, 2), sqlite3_column_blob(statement, 3),
                                        (size_t)sqlite3_column_bytes(statement, 3), &bytes, &count);
        free(bytes);
        worst = status != PLM_STATUS_OK ? status : worst;
    }
    if (code != SQLITE_DONE)
        worst = plmi_ledger_failed(ledger);
    plmi_ledger_done(statement);
    return worst;
}

/* Rows of a pragma that should have none, or one that says "ok". */
static enum plm_status check_pragma(struct plm_ledger *ledger, const char *sql, const char *what)
{
    sqlite3_stmt *statement = NULL;
    enum plm_status status = PLM_STATUS_OK;
    int code = sqlite3_prepare_v2(ledger->db, sql, -1, &statement, NULL);
    while (code == SQLITE_OK || code == SQLITE_ROW) {
        code = sqlite3_step(statement);
        const char *text = code == SQLITE_ROW ? plmi_ledger_text(statement, 0) : NULL;
        if (code == SQLITE_ROW && !(text && strcmp(text, "ok") == 0)) {
            plmi_report_add(&ledger->report, PLM_LEVEL_ERROR, PLM_DIAG_LEDGER, 0, 0, "%s: %.200s", what, text ? text : "a fault");
            status = PLM_STATUS_INPUT;
        }
    }
    if (code != SQLITE_DONE)
        status = plmi_ledger_failed(ledger);
    (void)sqlite3_finalize(statement);
    return status;
}

enum plm_status plm_ledger_check(struct plm_ledger *ledger)
{
    enum plm_status file = check_pragma(ledger, "PRAGMA integrity_check", "the file is damaged");
    enum plm_status keys = check_pragma(ledger, "PRAGMA foreign_key_check", "something names what is not there");
    enum plm_status logs = check_logs(ledger);
    return file != PLM_STATUS_OK ? file : keys != PLM_STATUS_OK ? keys : logs;
}
