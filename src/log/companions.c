/*
 * Finds what lies beside a log. Must not read more of it than the plan's name in a card.
 * SPDX-License-Identifier: MIT
 */
#include "log/companions.h"

#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include <plimsoll/log.h>

#include "base/diags.h"
#include "log/within.h"

static const char ENDING[] = ".card";

/* Length of path[n] up to the ending of its name, or the whole where it has none. */
static size_t stem_within(const char *path, size_t n)
{
    size_t name = n, dot = n;
    while (name > 0 && path[name - 1] != '/') {
        name--;
    }
    while (dot > name && path[dot - 1] != '.') {
        dot--;
    }
    return dot > name + 1 ? dot - 1 : n;
}

static size_t stem(const char *path)
{
    return stem_within(path, strlen(path));
}

/* head[n] and tail as one text on the heap; NULL without memory. */
static char *join(const char *head, size_t n, const char *tail)
{
    size_t length = strlen(tail);
    char *whole = malloc(n + length + 1);
    if (whole == NULL) {
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
    return join(path, slash != NULL && name[0] != '/' ? (size_t)(slash - path) + 1 : 0, name);
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
    *plan = name != NULL ? plmi_companions_path(card_path, name) : NULL;
    bool within = false, ok = name == NULL || (*plan != NULL && plmi_within_folder_of(&within, *plan, card_path));
    if (*plan != NULL && !within) {
        free(*plan);
        *plan = NULL;
    }
    plm_card_free(card);
    plm_source_free(source);
    return ok;
}

/* Whether anything has this name, a link that leads nowhere too: what cannot be read there is reported. */
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
    return PLM_STATUS_INPUT;
}

static enum plm_status no_memory(const struct plm_diag_sink *sink, const char *file)
{
    const struct plmi_diags diags = {sink, file};
    return plmi_diags_no_memory(&diags, 0, "for what lies beside it");
}

/* A path that is given, or none. Returns: OK, MEMORY reported. */
static enum plm_status take(char **path, const char *stated, const struct plm_diag_sink *sink)
{
    *path = stated != NULL ? join(stated, strlen(stated), "") : NULL;
    return stated == NULL || *path != NULL ? PLM_STATUS_OK : no_memory(sink, stated);
}

/* Whether a name ends in .gz, of any case. */
static bool is_packed(const char *path, size_t n)
{
    return n > 3 && path[n - 3] == '.' && (path[n - 2] == 'g' || path[n - 2] == 'G') &&
           (path[n - 1] == 'z' || path[n - 1] == 'Z');
}

/* The card that lies beside a log, wherever links lead: of "x.csv.gz" it is "x.csv.card", else "x.card". Returns: OK,
 * MEMORY reported. */
static enum plm_status card_beside(char **path, const char *log, const struct plm_diag_sink *sink)
{
    size_t n = stem(log), lengths[2] = {n, n};
    if (is_packed(log, strlen(log))) {
        lengths[1] = stem_within(log, n);
    }
    *path = NULL;
    for (size_t i = 0; i < 2 && (i == 0 || lengths[1] != n); i++) {
        char *card = join(log, lengths[i], ENDING);
        if (card == NULL) {
            return no_memory(sink, log);
        }
        if (is_there(card)) {
            *path = card;
            return PLM_STATUS_OK;
        }
        free(card);
    }
    return PLM_STATUS_OK;
}

/* Returns: OK where a file lies in the folder of another, else INPUT, reported as outside; MEMORY reported. */
static enum plm_status held_within(const char *path, const char *other, enum plm_diag_id id, const char *outside,
                                   const struct plm_diag_sink *sink)
{
    bool within = false;
    if (!plmi_within_folder_of(&within, path, other)) {
        return no_memory(sink, path);
    }
    return within ? PLM_STATUS_OK : tell(sink, path, PLM_LEVEL_ERROR, id, outside);
}

enum plm_status plmi_companions_card_find(char **path, const char *log, const char *stated,
                                          const struct plm_diag_sink *sink)
{
    *path = NULL;
    if (stated != NULL || strcmp(log, "-") == 0) {
        return take(path, stated, sink);
    }
    enum plm_status status = card_beside(path, log, sink);
    if (*path == NULL) {
        return status;
    }
    (void)tell(sink, *path, PLM_LEVEL_NOTE, PLM_DIAG_CARD, "lies beside the log; its word is taken");
    return held_within(*path, log, PLM_DIAG_CARD,
                       "leads outside the folder of the log; not read: copy it there, or name it with --card", sink);
}

enum plm_status plmi_companions_plan_find(char **path, const char *stated, const char *card_path, const char *name,
                                          const struct plm_diag_sink *sink)
{
    *path = NULL;
    if (stated != NULL || name == NULL || card_path == NULL) {
        return take(path, stated, sink);
    }
    *path = plmi_companions_path(card_path, name);
    if (*path == NULL) {
        return no_memory(sink, card_path);
    }
    return held_within(*path, card_path, PLM_DIAG_PLAN,
                       "lies outside the folder of the card that names it; not read: copy it there, or name it with "
                       "--plan",
                       sink);
}

enum plm_status plm_log_beside_find(struct plm_log_beside *out, const char *path, const struct plm_log_options *options)
{
    const struct plm_diag_sink silent = {NULL, NULL};
    const char *stated = options->card_path;
    *out = (struct plm_log_beside){NULL, NULL};
    enum plm_status status = options->card != NULL ? PLM_STATUS_OK
                             : stated != NULL || options->alone || strcmp(path, "-") == 0
                                 ? take(&out->card_path, stated, &silent)
                                 : card_beside(&out->card_path, path, &silent);
    if (status != PLM_STATUS_OK || options->without_plan) {
        return status;
    }
    if (options->plan_path != NULL) {
        return take(&out->plan_path, options->plan_path, &silent);
    }
    bool ok =
        out->card_path == NULL || plmi_companions_plan_named(&out->plan_path, out->card_path, options->import.rules);
    return ok ? PLM_STATUS_OK : PLM_STATUS_MEMORY;
}

void plm_log_beside_free(struct plm_log_beside *beside)
{
    free(beside->card_path);
    free(beside->plan_path);
    *beside = (struct plm_log_beside){NULL, NULL};
}
