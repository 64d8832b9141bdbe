/*
 * The logs themselves: compressed bytes under the hash of what they were.
 * SPDX-License-Identifier: MIT
 */
#include "ledger/ledger.h"

#include <stdlib.h>
#include <string.h>
#include <zlib.h>

#include "io/digest.h"

/* Deflate makes at most this many bytes of one: https://zlib.net/zlib_tech.html. A size beyond it is not asked of
 * memory. */
#define INFLATE_RATIO_MAX 1032

/* Whether a log is there already: a log of many dives is packed once. */
static enum plm_status log_there(struct plm_ledger *ledger, const char *sha256, bool *there)
{
    sqlite3_stmt *statement = plmi_ledger_statement(ledger, PLMI_STATEMENT_LOG_THERE);
    if (statement == NULL) {
        return PLM_STATUS_IO;
    }
    plmi_ledger_bind_text(statement, 1, sha256);
    int code = sqlite3_step(statement);
    enum plm_status status = code == SQLITE_ROW || code == SQLITE_DONE ? PLM_STATUS_OK : plmi_ledger_failed(ledger);
    *there = code == SQLITE_ROW;
    plmi_ledger_done(statement);
    return status;
}

enum plm_status plm_ledger_log_put(struct plm_ledger *ledger, const struct plm_ledger_log *log)
{
    bool there = false;
    enum plm_status status = log_there(ledger, log->sha256, &there);
    if (status != PLM_STATUS_OK || there) {
        return status;
    }
    uLongf packed_count = compressBound((uLong)log->count);
    Bytef *packed = malloc(packed_count);
    if (packed == NULL || compress2(packed, &packed_count, log->bytes, (uLong)log->count, 6) != Z_OK) {
        free(packed);
        return plmi_ledger_no_memory(ledger);
    }
    status = PLM_STATUS_IO;
    sqlite3_stmt *statement = plmi_ledger_statement(ledger, PLMI_STATEMENT_LOG_PUT);
    if (statement != NULL) {
        plmi_ledger_bind_text(statement, 1, log->sha256);
        plmi_ledger_bind_text(statement, 2, log->name);
        (void)sqlite3_bind_int64(statement, 3, (sqlite3_int64)log->count);
        (void)sqlite3_bind_blob64(statement, 4, packed, packed_count, SQLITE_STATIC);
        status = plmi_ledger_run(ledger, statement);
    }
    free(packed);
    return status;
}

static bool right_hash(const void *bytes, size_t count, const char *sha256)
{
    unsigned char digest[PLMI_DIGEST_BYTES];
    char hex[PLMI_DIGEST_HEX];
    plmi_digest_of(bytes, count, digest);
    plmi_digest_hex(digest, hex);
    return strcmp(hex, sha256) == 0;
}

static enum plm_status damaged(struct plm_ledger *ledger, const char *sha256)
{
    plmi_diags_add(&ledger->diags, PLM_LEVEL_ERROR, PLM_DIAG_LEDGER, 0, 0,
                   "the stored log %.12s does not match its hash; add it again from its file", sha256);
    return PLM_STATUS_INPUT;
}

/* Inflates and checks; *bytes is on the heap. */
static enum plm_status unpack(struct plm_ledger *ledger, const char *sha256, int64_t size, const void *packed,
                              size_t packed_count, void **bytes, size_t *count)
{
    if (size < 0 || packed == NULL || (uint64_t)size / INFLATE_RATIO_MAX > packed_count) {
        return damaged(ledger, sha256);
    }
    if (size > ledger->log_max_bytes) {
        plmi_diags_add(&ledger->diags, PLM_LEVEL_ERROR, PLM_DIAG_LEDGER, 0, 0,
                       "the stored log %.12s is larger than %lld MB (rule file_max_mb); not read", sha256,
                       (long long)(ledger->log_max_bytes / 1000000));
        return PLM_STATUS_INPUT;
    }
    uLongf plain_count = (uLongf)size;
    Bytef *plain = malloc((size_t)size + 1);
    if (plain == NULL) {
        return plmi_ledger_no_memory(ledger);
    }
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
    if (statement == NULL) {
        return PLM_STATUS_IO;
    }
    plmi_ledger_bind_text(statement, 1, sha256);
    enum plm_status status;
    int code = sqlite3_step(statement);
    if (code == SQLITE_ROW) {
        const void *packed = sqlite3_column_blob(statement, 1);
        status = unpack(ledger, sha256, sqlite3_column_int64(statement, 0), packed,
                        (size_t)sqlite3_column_bytes(statement, 1), bytes, count);
    } else {
        status = code == SQLITE_DONE ? damaged(ledger, sha256) : plmi_ledger_failed(ledger);
    }
    plmi_ledger_done(statement);
    return status;
}

enum plm_status plm_ledger_record_find(struct plm_ledger *ledger, const char *sha256, int log_index, int64_t *exposure)
{
    sqlite3_stmt *statement = plmi_ledger_statement(ledger, PLMI_STATEMENT_RECORD_FIND);
    *exposure = 0;
    if (statement == NULL) {
        return PLM_STATUS_IO;
    }
    plmi_ledger_bind_text(statement, 1, sha256);
    (void)sqlite3_bind_int(statement, 2, log_index);
    int code = sqlite3_step(statement);
    if (code == SQLITE_ROW) {
        *exposure = sqlite3_column_int64(statement, 0);
    }
    enum plm_status status = code == SQLITE_ROW || code == SQLITE_DONE ? PLM_STATUS_OK : plmi_ledger_failed(ledger);
    plmi_ledger_done(statement);
    return status;
}

enum plm_status plm_ledger_logs(struct plm_ledger *ledger, plm_ledger_log_take *take, void *context)
{
    sqlite3_stmt *row = plmi_ledger_statement(ledger, PLMI_STATEMENT_LOG_NAMES);
    if (row == NULL) {
        return PLM_STATUS_IO;
    }
    int code;
    bool more = true;
    while (more && (code = sqlite3_step(row)) == SQLITE_ROW) {
        const char *sha256 = (const char *)sqlite3_column_text(row, 0),
                   *name = (const char *)sqlite3_column_text(row, 1);
        more = take(context, sha256 != NULL ? sha256 : "", name != NULL ? name : "");
    }
    enum plm_status status = !more || code == SQLITE_DONE ? PLM_STATUS_OK : plmi_ledger_failed(ledger);
    plmi_ledger_done(row);
    return status;
}

enum plm_status plmi_ledger_check_logs(struct plm_ledger *ledger)
{
    enum plm_status worst = PLM_STATUS_OK;
    sqlite3_stmt *statement = plmi_ledger_statement(ledger, PLMI_STATEMENT_LOGS);
    if (statement == NULL) {
        return PLM_STATUS_IO;
    }
    int code;
    while ((code = sqlite3_step(statement)) == SQLITE_ROW) {
        void *bytes = NULL;
        size_t count = 0;
        const char *sha256 = (const char *)sqlite3_column_text(statement, 0);
        enum plm_status status =
            unpack(ledger, sha256 != NULL ? sha256 : "", sqlite3_column_int64(statement, 2),
                   sqlite3_column_blob(statement, 3), (size_t)sqlite3_column_bytes(statement, 3), &bytes, &count);
        free(bytes);
        worst = status != PLM_STATUS_OK ? status : worst;
    }
    if (code != SQLITE_DONE) {
        worst = plmi_ledger_failed(ledger);
    }
    plmi_ledger_done(statement);
    return worst;
}
