/*
 * The name of a ledger's file as SQLite is given it. Must not open anything.
 * SPDX-License-Identifier: MIT
 */
#include "ledger/ledger.h"

#include <string.h>
#include <sys/stat.h>

/* Not kept in a file: https://sqlite.org/inmemorydb.html. */
#define SPECIAL ":memory:"

static enum plm_status refuse(struct plm_ledger *ledger, const char *text)
{
    plmi_diags_add(&ledger->diags, PLM_LEVEL_ERROR, PLM_DIAG_LEDGER, 0, 0, "%s", text);
    return PLM_STATUS_IO;
}

enum plm_status plmi_ledger_path(struct plm_ledger *ledger, struct plmi_text *file)
{
    const char *path = ledger->path;
    struct stat about;
    plmi_text_init(file);
    if (path[0] == '\0') {
        return refuse(ledger, "the ledger: a file without a name cannot be one");
    }
    if (strcmp(path, SPECIAL) == 0) {
        return refuse(ledger, "the ledger: this is no file, and nothing would be kept; ./" SPECIAL
                              " names a file that is called so");
    }
    if (stat(path, &about) == 0 && !S_ISREG(about.st_mode)) {
        return refuse(ledger, S_ISDIR(about.st_mode) ? "the ledger: it is a folder; a ledger is one file"
                                                     : "the ledger: it is no regular file, and nothing would be kept");
    }
    /* With its folder in front no name is special, neither as a URI nor otherwise. */
    plmi_text_puts(file, path[0] == '/' ? "" : "./");
    plmi_text_puts(file, path);
    return file->failed ? plmi_ledger_no_memory(ledger) : PLM_STATUS_OK;
}
