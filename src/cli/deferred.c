/*
 * Holds diagnostics back. What memory does not suffice for is passed on at once.
 * SPDX-License-Identifier: MIT
 */
#include <stdlib.h>
#include <string.h>

#include <plimsoll/log_files.h>

#include "cli/deferred.h"

struct plmi_cli_deferred_diag {
    struct plm_diag diag;
    char *text, *file;
};

static bool keep(struct plmi_cli_deferred *held, const struct plm_diag *diag)
{
    if (held->count == held->capacity) {
        size_t capacity = held->capacity > 0 ? 2 * held->capacity : 8;
        struct plmi_cli_deferred_diag *items = realloc(held->items, capacity * sizeof *items);
        if (items == NULL) {
            return false;
        }
        held->items = items;
        held->capacity = capacity;
    }
    struct plmi_cli_deferred_diag *item = &held->items[held->count];
    *item = (struct plmi_cli_deferred_diag){
        .diag = *diag, .text = strdup(diag->text), .file = diag->place.file != NULL ? strdup(diag->place.file) : NULL};
    if (item->text == NULL) {
        free(item->file);
        return false;
    }
    item->diag.text = item->text;
    item->diag.place.file = item->file;
    held->count++;
    return true;
}

static void take(void *context, const struct plm_diag *diag)
{
    struct plmi_cli_deferred *held = context;
    bool of_log = diag->place.file != NULL && strcmp(diag->place.file, held->log) == 0;
    if (diag->level == PLM_LEVEL_ERROR) {
        held->refused = of_log && plm_log_files_refusal(diag->id) && (held->refused || !held->open);
    }
    if (held->open || !keep(held, diag)) {
        held->to->report(held->to->context, diag);
    }
    if (diag->level == PLM_LEVEL_ERROR && !held->refused) {
        plmi_cli_deferred_pass(held);
    }
}

void plmi_cli_deferred_init(struct plmi_cli_deferred *held, const char *log, const struct plm_diag_sink *to)
{
    *held = (struct plmi_cli_deferred){.to = to, .log = log};
    held->sink = (struct plm_diag_sink){take, held};
}

void plmi_cli_deferred_pass(struct plmi_cli_deferred *held)
{
    for (size_t i = 0; i < held->count; i++) {
        held->to->report(held->to->context, &held->items[i].diag);
    }
    plmi_cli_deferred_free(held);
    held->open = true;
}

void plmi_cli_deferred_free(struct plmi_cli_deferred *held)
{
    for (size_t i = 0; i < held->count; i++) {
        free(held->items[i].text);
        free(held->items[i].file);
    }
    free(held->items);
    held->items = NULL;
    held->count = held->capacity = 0;
}
