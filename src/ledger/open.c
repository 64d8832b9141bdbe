/*
 * Opens and closes the ledger's file. Must not read or change what is in it.
 * SPDX-License-Identifier: MIT
 */
#include "ledger/ledger.h"

#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include <plimsoll/rules.h>

#include "base/text.h"

/* https://sqlite.org/security.html, untrusted SQLite database files. */
static const struct {
    int option, on;
} CARES[] = {
    {SQLITE_DBCONFIG_DEFENSIVE, 1},   {SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0},        {SQLITE_DBCONFIG_ENABLE_TRIGGER, 0},
    {SQLITE_DBCONFIG_ENABLE_VIEW, 0}, {SQLITE_DBCONFIG_ENABLE_LOAD_EXTENSION, 0}, {SQLITE_DBCONFIG_DQS_DDL, 0},
    {SQLITE_DBCONFIG_DQS_DML, 0},
};
/* Our own longest statement has some 7 kB; nothing is attached. */
static const struct {
    int limit, most;
} LIMITS[] = {{SQLITE_LIMIT_SQL_LENGTH, 100000}, {SQLITE_LIMIT_ATTACHED, 0}};

static enum plm_status settle(struct plm_ledger *ledger, enum plm_ledger_mode mode)
{
    (void)sqlite3_busy_handler(ledger->db, plmi_ledger_wait, ledger);
    for (size_t i = 0; i < sizeof CARES / sizeof CARES[0]; i++) {
        (void)sqlite3_db_config(ledger->db, CARES[i].option, CARES[i].on, NULL);
    }
    for (size_t i = 0; i < sizeof LIMITS / sizeof LIMITS[0]; i++) {
        (void)sqlite3_limit(ledger->db, LIMITS[i].limit, LIMITS[i].most);
    }
    return plmi_ledger_sql(ledger, mode == PLM_LEDGER_READ ? "PRAGMA query_only = ON; PRAGMA cell_size_check = ON;"
                                                           : "PRAGMA foreign_keys = ON; PRAGMA cell_size_check = ON;");
}

/* The file as a URI that promises that nobody writes. Returns: false without memory. */
static bool still_uri(struct plmi_text *uri, const char *path)
{
    plmi_text_init(uri);
    plmi_text_puts(uri, path[0] == '/' ? "file://" : "file:");
    for (const unsigned char *at = (const unsigned char *)path; *at != '\0'; at++) {
        if (*at == '%' || *at == '?' || *at == '#') {
            plmi_text_printf(uri, "%%%02X", (unsigned)*at);
        } else {
            plmi_text_add(uri, (const char *)at, 1);
        }
    }
    plmi_text_puts(uri, "?immutable=1");
    return !uri->failed;
}

/* In a folder that cannot be written to a reader cannot join others; without a journal beside the file nobody is at it.
 */
static bool stands_still(const char *path)
{
    struct plmi_text beside, folder;
    plmi_text_init(&beside);
    plmi_text_init(&folder);
    const char *slash = strrchr(path, '/');
    plmi_text_printf(&beside, "%s-wal", path);
    plmi_text_add(&folder, slash != NULL ? path : ".", slash != NULL ? (size_t)(slash - path) + (slash == path) : 1);
    bool still = !beside.failed && !folder.failed && access(path, R_OK) == 0 && access(beside.bytes, F_OK) != 0 &&
                 access(folder.bytes, W_OK) != 0;
    plmi_text_free(&beside);
    plmi_text_free(&folder);
    return still;
}

/* Dives are personal: a new file is for its owner, and SQLite gives what it puts beside the same mode. Failing shows
 * when it is opened. */
static void make_private(const char *path)
{
    int file = open(path, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, S_IRUSR | S_IWUSR);
    if (file >= 0) {
        (void)close(file);
    }
}

static enum plm_status connect_file(struct plm_ledger *ledger, const char *path, enum plm_ledger_mode mode)
{
    /* Who reads is let in for writing too, where that can be, so that the journal is put away at the end; query_only
     * keeps the rest out. */
    static const int flags[] = {SQLITE_OPEN_READWRITE, SQLITE_OPEN_READWRITE,
                                SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE};
    struct plmi_text uri = {0};
    int code;
    if (mode == PLM_LEDGER_MAKE) {
        make_private(path);
    }
    if (mode == PLM_LEDGER_READ && stands_still(path)) {
        code = still_uri(&uri, path)
                   ? sqlite3_open_v2(uri.bytes, &ledger->db, SQLITE_OPEN_READONLY | SQLITE_OPEN_URI, NULL)
                   : SQLITE_NOMEM;
    } else {
        code = sqlite3_open_v2(path, &ledger->db, flags[mode], NULL);
    }
    plmi_text_free(&uri);
    if (code != SQLITE_OK) {
        return plmi_ledger_failed(ledger);
    }
    /* SQLite makes do with reading where it may not write. */
    if (mode != PLM_LEDGER_READ && sqlite3_db_readonly(ledger->db, "main") == 1) {
        plmi_diags_add(&ledger->diags, PLM_LEVEL_ERROR, PLM_DIAG_LEDGER, 0, 0,
                       "the ledger: it cannot be written to; nothing was changed");
        return PLM_STATUS_IO;
    }
    return settle(ledger, mode);
}

enum plm_status plm_ledger_open(struct plm_ledger **out, const char *path, enum plm_ledger_mode mode,
                                const struct plm_diag_sink *sink)
{
    struct plm_ledger *ledger = calloc(1, sizeof *ledger);
    size_t size = strlen(path) + 1;
    char *copy = malloc(size);
    *out = NULL;
    if (ledger == NULL || copy == NULL) {
        const struct plmi_diags diags = {sink, path};
        (void)plmi_diags_no_memory(&diags, 0, "to open the ledger");
        free(ledger);
        free(copy);
        return PLM_STATUS_MEMORY;
    }
    ledger->path = memcpy(copy, path, size);
    ledger->log_max_bytes = (int64_t)(plm_rules_default().file_max_mb * 1000000);
    plmi_fold_init(&ledger->fold, sink, ledger->path);
    plmi_diags_init(&ledger->diags, &ledger->fold.sink, ledger->path);
    struct plmi_text file;
    enum plm_status status = plmi_ledger_path(ledger, &file);
    if (status == PLM_STATUS_OK) {
        status = connect_file(ledger, file.bytes, mode);
    }
    plmi_text_free(&file);
    if (status == PLM_STATUS_OK) {
        status = plmi_ledger_schema(ledger, mode);
    }
    if (status != PLM_STATUS_OK) {
        plm_ledger_close(ledger);
        return status;
    }
    *out = ledger;
    return PLM_STATUS_OK;
}

void plm_ledger_log_limit(struct plm_ledger *ledger, int64_t max_bytes)
{
    ledger->log_max_bytes = max_bytes;
}

void plm_ledger_close(struct plm_ledger *ledger)
{
    if (ledger == NULL) {
        return;
    }
    plm_ledger_undo(ledger);
    for (int i = 0; i < PLMI_STATEMENT_COUNT; i++) {
        (void)sqlite3_finalize(ledger->statements[i]);
    }
    (void)sqlite3_close(ledger->db);
    plmi_fold_finish(&ledger->fold);
    free(ledger->path);
    free(ledger->diver_key);
    free(ledger->stated_name);
    free(ledger);
}
