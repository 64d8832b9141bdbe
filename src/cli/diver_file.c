/*
 * Takes the name of a diver, and turns it into a part of a path. Must not look at the file system: the same name has
 * the same part everywhere.
 * SPDX-License-Identifier: MIT
 */
#include "cli/diver_file.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <plimsoll/names.h>
#include <plimsoll/source.h>
#include <plimsoll/text.h>

/* So many bytes of a name are kept, so many hexadecimal digits of its hash: 80 bits. */
enum { PART_BYTES = 64, HASH_DIGITS = 20 };

/* Names that DOS keeps for devices, and systems after it. Common practice, no source. */
static bool is_device(const char *key)
{
    static const char *const devices[] = {"con", "prn", "aux", "nul"};
    bool numbered = (strncmp(key, "com", 3) == 0 || strncmp(key, "lpt", 3) == 0) && key[3] >= '0' && key[3] <= '9' &&
                    key[4] == '\0';
    for (size_t i = 0; i < sizeof devices / sizeof devices[0]; i++) {
        numbered = numbered || strcmp(key, devices[i]) == 0;
    }
    return numbered;
}

/* The name with '_' for what may not stand in a path, cut between letters. Returns: whether it says the whole name. */
static bool part_write(const char *name, char part[PART_BYTES + 1])
{
    size_t n = 0;
    bool whole = plm_text_plain(name, part, PART_BYTES + 1) == strlen(name) && strcmp(part, name) == 0;
    for (; part[n] != '\0'; n++) {
        unsigned char c = (unsigned char)part[n];
        bool plain = c >= 0x80 || (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') ||
                     (c == '-' && n > 0);
        whole = whole && (plain || c == ' ');
        part[n] = plain ? part[n] : '_';
    }
    return whole && n > 0;
}

static bool hash_write(const char *key, char hex[65], const struct plm_diag_sink *sink)
{
    const struct plm_rules rules = plm_rules_default();
    struct plm_source *source = NULL;
    enum plm_status status = plm_source_open_memory(&source, key, strlen(key), NULL, &rules, sink);
    if (status == PLM_STATUS_OK) {
        status = plm_source_sha256(source, hex);
    }
    plm_source_free(source);
    return status == PLM_STATUS_OK;
}

bool plmi_cli_diver_file(const char *diver, char *buffer, const struct plm_diag_sink *sink)
{
    char part[PART_BYTES + 1], hex[65] = "";
    char *key = plm_name_key(diver);
    bool done = key != NULL, whole = part_write(diver, part);
    if (!done && sink->report != NULL) {
        const struct plm_diag diag = {
            .level = PLM_LEVEL_ERROR, .id = PLM_DIAG_MEMORY, .text = "no memory for the name of a file"};
        sink->report(sink->context, &diag);
    }
    whole = whole && done && !is_device(key);
    if (done && !whole) {
        done = hash_write(key, hex, sink);
    }
    (void)snprintf(buffer, PLMI_CLI_DIVER_FILE_BYTES, "%s%s%.*s", part, whole ? "" : "+", HASH_DIGITS, hex);
    free(key);
    return done;
}

/* Whether U+FFFD came into the name, as it does for bytes that are no UTF-8. */
const char *plmi_cli_diver_expected(const char *value)
{
    static const char replacement[] = "\xef\xbf\xbd";
    char *name = plm_name_normal(value);
    bool text = name != NULL && (strstr(name, replacement) == NULL || strstr(value, replacement) != NULL);
    bool named = name != NULL && name[0] != '\0' && !plm_name_same(name, "");
    free(name);
    return !named ? "the name of a diver" : text ? NULL : "the name of a diver in UTF-8";
}
