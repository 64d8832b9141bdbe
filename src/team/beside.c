/*
 * Finds and reads what lies beside a log.
 * SPDX-License-Identifier: MIT
 */
#include "team/beside.h"

#include <string.h>

#include <plimsoll/import.h>

#include "base/report.h"

static const char ENDING[] = ".card";

/* Length of a path up to the ending of its name, or the whole where it has none. */
static size_t stem(const char *path)
{
    const char *slash = strrchr(path, '/'), *dot = strrchr(path, '.');
    const char *name = slash ? slash + 1 : path;
    return dot && dot > name ? (size_t)(dot - path) : strlen(path);
}

bool plmi_beside_is_card(const char *path)
{
    return strcmp(path + stem(path), ENDING) == 0;
}

static const char *joined(struct plmi_arena *arena, const char *head, size_t n, const char *tail)
{
    struct plmi_text text;
    plmi_text_init(&text);
    plmi_text_add(&text, head, n);
    plmi_text_puts(&text, tail);
    const char *copy = text.failed ? NULL : plmi_arena_text(arena, text.bytes, text.count);
    plmi_text_free(&text);
    return copy;
}

const char *plmi_beside_card_path(struct plmi_arena *arena, const char *log_path)
{
    return joined(arena, log_path, stem(log_path), ENDING);
}

const char *plmi_beside_path(struct plmi_arena *arena, const char *path, const char *name)
{
    const char *slash = strrchr(path, '/');
    return joined(arena, path, slash && name[0] != '/' ? (size_t)(slash - path) + 1 : 0, name);
}

enum plm_status plmi_beside_plan_read(struct plm_dive **out, const char *path, const struct plm_rules *rules, const struct plm_diag_sink *sink)
{
    struct plm_source *source = NULL;
    struct plm_import *import = NULL;
    const struct plm_import_options options = {.rules = rules};
    *out = NULL;
    enum plm_status status = plm_source_open_file(&source, path, NULL, rules, sink);
    if (status == PLM_STATUS_OK)
        status = plm_import_open(&import, source, &options, sink);
    if (status == PLM_STATUS_OK)
        status = plm_import_next(import, out);
    if (status == PLM_STATUS_END) {
        struct plmi_report report;
        plmi_report_init(&report, sink, path);
        plmi_report_add(&report, PLM_LEVEL_ERROR, PLM_DIAG_PLAN, 0, 0, "holds no dive; nothing is compared with it");
        status = PLM_STATUS_INPUT;
    }
    plm_import_free(import);
    plm_source_free(source);
    return status;
}
