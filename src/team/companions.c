/*
 * Finds and reads what lies beside a log. Must not lay it over anything.
 * SPDX-License-Identifier: MIT
 */
#include "team/companions.h"

#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include <plimsoll/import.h>

#include "base/diags.h"
#include "team/within.h"

/* One day: a plan names its corners, and the way between them is no gap. */
#define PLAN_GAP_S 86400

static const char ENDING[] = ".card";

/* Length of a path up to the ending of its name, or the whole where it has none. */
static size_t stem(const char *path)
{
    const char *slash = strrchr(path, '/'), *dot = strrchr(path, '.');
    const char *name = slash ? slash + 1 : path;
    return dot && dot > name ? (size_t)(dot - path) : strlen(path);
}

/* head[n] and tail as one text on the heap; NULL without memory. */
static char *join(const char *head, size_t n, const char *tail)
{
    size_t length = strlen(tail);
    char *whole = malloc(n + length + 1);
    if (!whole) {
        return NULL;
    }
    memcpy(whole, head, n);
    memcpy(whole + n, tail, length + 1);
    return whole;
}

bool plmi_companions_is_card(const char *path)
{
    return strcmp(path + stem(path), ENDING) == 0;
}

char *plmi_companions_path(const char *path, const char *name)
{
    const char *slash = strrchr(path, '/');
    return join(path, slash && name[0] != '/' ? (size_t)(slash - path) + 1 : 0, name);
}

bool plmi_companions_plan_named(char **plan, const char *card_path, const struct plm_rules *rules)
{
    const struct plm_diag_sink silent = {NULL, NULL};
    struct plm_source *source = NULL;
    struct plm_card *card = NULL;
    const char *name = NULL;
    if (plm_source_open_regular(&source, card_path, rules, &silent) == PLM_STATUS_OK &&
        plm_card_read(&card, source, rules, &silent) == PLM_STATUS_OK) {
        name = plm_card_plan(card);
    }
    *plan = name ? plmi_companions_path(card_path, name) : NULL;
    bool ok = !name || *plan;
    if (*plan && !plmi_within_folder_of(*plan, card_path)) {
        free(*plan);
        *plan = NULL;
    }
    plm_card_free(card);
    plm_source_free(source);
    return ok;
}

/* Whether anything has this name, a link that leads nowhere too: what cannot be read there is told. */
static bool is_there(const char *path)
{
    struct stat facts;
    return lstat(path, &facts) == 0;
}

static enum plm_status tell(const struct plm_diag_sink *sink, const char *file, enum plm_level level,
                            enum plm_diag_id id, const char *text)
{
    struct plmi_diags diags;
    plmi_diags_init(&diags, sink, file);
    plmi_diags_add(&diags, level, id, 0, 0, "%s", text);
    return id == PLM_DIAG_MEMORY ? PLM_STATUS_MEMORY : PLM_STATUS_INPUT;
}

/* The path of the card: the one told, or the one that lies there; none is OK too. */
static enum plm_status card_find(struct plm_companions *out, const char *log, const char *told,
                                 const struct plm_diag_sink *sink)
{
    bool named = strcmp(log, "-") != 0;
    if (!told && !named) {
        return PLM_STATUS_OK;
    }
    out->card_path = told ? join(told, strlen(told), "") : join(log, stem(log), ENDING);
    if (!out->card_path) {
        return tell(sink, log, PLM_LEVEL_ERROR, PLM_DIAG_MEMORY, "no memory for what lies beside it");
    }
    if (told) {
        return PLM_STATUS_OK;
    }
    if (is_there(out->card_path)) {
        (void)tell(sink, out->card_path, PLM_LEVEL_NOTE, PLM_DIAG_CARD, "lies beside the log; its word is taken");
        return PLM_STATUS_OK;
    }
    free(out->card_path);
    out->card_path = NULL;
    return PLM_STATUS_OK;
}

enum plm_status plm_companions_find(struct plm_companions *out, const char *log, const char *card_path,
                                    const char *plan_path, const struct plm_rules *rules)
{
    const struct plm_diag_sink silent = {NULL, NULL};
    bool ok = true;
    *out = (struct plm_companions){.card = NULL};
    if (card_find(out, log, card_path, &silent) != PLM_STATUS_OK) {
        return PLM_STATUS_MEMORY;
    }
    if (plan_path) {
        ok = (out->plan_path = join(plan_path, strlen(plan_path), "")) != NULL;
    } else if (out->card_path) {
        ok = plmi_companions_plan_named(&out->plan_path, out->card_path, rules);
    }
    return ok ? PLM_STATUS_OK : PLM_STATUS_MEMORY;
}

static enum plm_status card_read(struct plm_companions *out, const struct plm_rules *rules,
                                 const struct plm_diag_sink *sink)
{
    struct plm_source *source = NULL;
    enum plm_status status = plm_source_open_regular(&source, out->card_path, rules, sink);
    if (status == PLM_STATUS_OK) {
        status = plm_card_read(&out->card, source, rules, sink);
    }
    plm_source_free(source);
    return status;
}

/* The first dive of the plan's file, read as any log is. */
static enum plm_status plan_read(struct plm_companions *out, const struct plm_rules *rules,
                                 const struct plm_diag_sink *sink)
{
    struct plm_source *source = NULL;
    struct plm_import *import = NULL;
    struct plm_rules plan_rules = *rules;
    plan_rules.gap_s = PLAN_GAP_S;
    plan_rules.gap_max_min = PLAN_GAP_S / 60;
    const struct plm_import_options options = {.rules = &plan_rules};
    enum plm_status status = plm_source_open_regular(&source, out->plan_path, &plan_rules, sink);
    if (status == PLM_STATUS_OK) {
        status = plm_import_open(&import, source, &options, sink);
    }
    if (status == PLM_STATUS_OK) {
        status = plm_import_next(import, &out->plan);
    }
    out->plan_partial = import && plm_import_partial(import);
    if (status == PLM_STATUS_END) {
        status =
            tell(sink, out->plan_path, PLM_LEVEL_ERROR, PLM_DIAG_PLAN, "holds no dive; nothing is compared with it");
    }
    plm_import_free(import);
    plm_source_free(source);
    return status;
}

enum plm_status plm_companions_read(struct plm_companions *out, const char *log, const char *card_path,
                                    const char *plan_path, const struct plm_rules *rules,
                                    const struct plm_diag_sink *sink)
{
    *out = (struct plm_companions){.card = NULL};
    enum plm_status status = card_find(out, log, card_path, sink);
    if (status == PLM_STATUS_OK && out->card_path && !card_path && !plmi_within_folder_of(out->card_path, log)) {
        status = tell(sink, out->card_path, PLM_LEVEL_ERROR, PLM_DIAG_CARD,
                      "leads outside the folder of the log; not read: copy it there, or name it with --card");
    }
    if (status == PLM_STATUS_OK && out->card_path) {
        status = card_read(out, rules, sink);
    }
    if (status != PLM_STATUS_OK) {
        return status;
    }
    const char *named = out->card ? plm_card_plan(out->card) : NULL;
    if (!plan_path && !named) {
        return PLM_STATUS_OK;
    }
    out->plan_path = plan_path ? join(plan_path, strlen(plan_path), "") : plmi_companions_path(out->card_path, named);
    if (!out->plan_path) {
        return tell(sink, log, PLM_LEVEL_ERROR, PLM_DIAG_MEMORY, "no memory for what lies beside it");
    }
    if (!plan_path && !plmi_within_folder_of(out->plan_path, out->card_path)) {
        return tell(
            sink, out->plan_path, PLM_LEVEL_ERROR, PLM_DIAG_PLAN,
            "lies outside the folder of the card that names it; not read: copy it there, or name it with --plan");
    }
    return plan_read(out, rules, sink);
}

void plm_companions_free(struct plm_companions *beside)
{
    plm_card_free(beside->card);
    plm_dive_free(beside->plan);
    free(beside->card_path);
    free(beside->plan_path);
    *beside = (struct plm_companions){.card = NULL};
}
