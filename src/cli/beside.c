/*
 * Finds and reads the card and the plan that go with a log. Must not lay them over anything.
 * SPDX-License-Identifier: MIT
 */
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include <plimsoll/import.h>

#include "cli/beside.h"

/* One day: a plan names its corners, and the way between them is no gap. */
#define PLAN_GAP_S 86400

/* folder[n] and name as one text; NULL without memory. */
static char *join(const char *folder, size_t n, const char *name)
{
    size_t length = strlen(name);
    char *whole = malloc(n + length + 1);
    if (whole == NULL)
        return NULL;
    memcpy(whole, folder, n);
    memcpy(whole + n, name, length + 1);
    return whole;
}

/* Length of a path up to the ending of its name, or the whole where it has none. */
static size_t stem(const char *path)
{
    const char *slash = strrchr(path, '/'), *dot = strrchr(path, '.');
    const char *name = slash != NULL ? slash + 1 : path;
    return dot != NULL && dot > name ? (size_t)(dot - path) : strlen(path);
}

/* The file that a card names lies in the card's folder. */
static char *beside_card(const char *card_path, const char *name)
{
    const char *slash = strrchr(card_path, '/');
    return join(card_path, slash != NULL && name[0] != '/' ? (size_t)(slash + 1 - card_path) : 0, name);
}

static enum plm_status card_read(struct plmi_cli_beside *beside, struct plmi_cli_call *call, const char *path)
{
    struct plm_source *source = NULL;
    enum plm_status status = plm_source_open_file(&source, path, NULL, &call->settings.rules, &call->talk.sink);
    if (status == PLM_STATUS_OK)
        status = plm_card_read(&beside->card, source, &call->settings.rules, &call->talk.sink);
    plm_source_free(source);
    return status;
}

/* The first dive of the plan's file, read as any log is. */
static enum plm_status plan_read(struct plmi_cli_beside *beside, struct plmi_cli_call *call, const char *path)
{
    struct plm_source *source = NULL;
    struct plm_import *import = NULL;
    struct plm_rules rules = call->settings.rules;
    rules.gap_s = PLAN_GAP_S;
    struct plm_import_options options = {.rules = &rules};
    enum plm_status status = plm_source_open_file(&source, path, NULL, &rules, &call->talk.sink);
    if (status == PLM_STATUS_OK)
        status = plm_import_open(&import, source, &options, &call->talk.sink);
    if (status == PLM_STATUS_OK)
        status = plm_import_next(import, &beside->plan);
    if (status == PLM_STATUS_END) {
        plmi_cli_talk_usage(&call->talk, PLM_LEVEL_ERROR, "the plan %s holds no dive", path);
        status = PLM_STATUS_INPUT;
    }
    plm_import_free(import);
    plm_source_free(source);
    return status;
}

static enum plm_status plan_find(struct plmi_cli_beside *beside, struct plmi_cli_call *call, const char *card_path)
{
    const char *named = beside->card != NULL ? plm_card_plan(beside->card) : NULL;
    if (call->settings.plan != NULL)
        return plan_read(beside, call, call->settings.plan);
    if (named == NULL)
        return PLM_STATUS_OK;
    char *path = beside_card(card_path, named);
    if (path == NULL)
        plmi_cli_talk_usage(&call->talk, PLM_LEVEL_ERROR, "no memory");
    enum plm_status status = path != NULL ? plan_read(beside, call, path) : PLM_STATUS_MEMORY;
    free(path);
    return status;
}

static void beside_tell(struct plmi_cli_call *call, const char *path)
{
    struct plm_diag diag = {.level = PLM_LEVEL_NOTE, .id = PLM_DIAG_CARD, .place = {.file = path}, .text = "lies beside the log; its word is taken"};
    call->talk.sink.report(call->talk.sink.context, &diag);
}

enum plm_status plmi_cli_beside_read(struct plmi_cli_beside *beside, struct plmi_cli_call *call, const char *log)
{
    const char *told = call->settings.card;
    char *found = told == NULL ? join(log, stem(log), ".card") : NULL;
    bool lies_there = found != NULL && strcmp(log, "-") != 0 && access(found, R_OK) == 0;
    const char *path = told != NULL ? told : lies_there ? found : NULL;
    enum plm_status status = PLM_STATUS_OK;
    *beside = (struct plmi_cli_beside){.card = NULL};
    if (lies_there)
        beside_tell(call, found);
    if (path != NULL)
        status = card_read(beside, call, path);
    if (status == PLM_STATUS_OK)
        status = plan_find(beside, call, path);
    free(found);
    return status;
}

void plmi_cli_beside_free(struct plmi_cli_beside *beside)
{
    plm_card_free(beside->card);
    plm_dive_free(beside->plan);
    *beside = (struct plmi_cli_beside){.card = NULL};
}
