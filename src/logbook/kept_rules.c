/*
 * Rules written as a rules file, and read back. Must not leave one out: figures are made by them for ever.
 * SPDX-License-Identifier: MIT
 */
#include "logbook/kept_rules.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <plimsoll/rules_file.h>

#define STATED "[stated]\n"

static size_t line_write(char *text, size_t size, const struct plm_rules *rules, const char *key)
{
    char value[48];
    int n = snprintf(text, size, "%s = %s\n", key, plm_rules_get(rules, key, value, sizeof value));
    return n > 0 && (size_t)n < size ? (size_t)n : 0;
}

char *plmi_kept_rules_write(const struct plm_rules *rules, const struct plm_rules_stated *stated)
{
    size_t count, used = 0;
    const struct plm_rule_info *table = plm_rules_table(&count);
    size_t size = 2 * count * 96 + sizeof STATED;
    const char *head = STATED;
    char *text = malloc(size);
    for (size_t i = 0; text != NULL && i < count; i++) {
        used += line_write(text + used, size - used, rules, table[i].key);
    }
    for (size_t i = 0; text != NULL && i < count; i++) {
        if (plm_rules_stated_has(stated, table[i].key)) {
            memcpy(text + used, head, strlen(head) + 1);
            used += strlen(head);
            head = "";
            used += line_write(text + used, size - used, rules, table[i].key);
        }
    }
    return text;
}

/* The keys of the section [stated] at the end. */
static void stated_read(struct plm_rules_stated *stated, const char *text)
{
    const char *section = strstr(text, STATED);
    *stated = (struct plm_rules_stated){0};
    for (const char *line = section != NULL ? section + strlen(STATED) : ""; line[0] != '\0';) {
        char key[64];
        size_t n = strcspn(line, " =\n");
        if (n < sizeof key) {
            memcpy(key, line, n);
            key[n] = '\0';
            plm_rules_stated_add(stated, key);
        }
        line += strcspn(line, "\n");
        line += line[0] == '\n';
    }
}

/* Reads a text that is not the last one. */
static enum plm_status kept_take(struct plmi_kept_rules *kept, const char *text, const struct plm_diag_sink *sink)
{
    struct plm_source *source = NULL;
    const struct plm_rules defaults = plm_rules_default();
    const char *end = strstr(text, STATED); /* what stands there stands before it, too */
    size_t length = end != NULL ? (size_t)(end - text) : strlen(text);
    kept->rules = defaults;
    enum plm_status status = plm_source_open_memory(&source, text, length, "rules of the ledger", &defaults, sink);
    if (status == PLM_STATUS_OK) {
        status = plm_rules_read(&kept->rules, NULL, source, sink);
    }
    plm_source_free(source);
    stated_read(&kept->stated, text);
    free(kept->text);
    kept->text = status == PLM_STATUS_OK ? strdup(text) : NULL;
    return status;
}

enum plm_status plmi_kept_rules_read(struct plmi_kept_rules *kept, const char *text, struct plm_rules *rules,
                                     struct plm_rules_stated *stated, const struct plm_diag_sink *sink)
{
    enum plm_status status = PLM_STATUS_OK;
    if (kept->text == NULL || strcmp(kept->text, text) != 0) {
        status = kept_take(kept, text, sink);
    }
    *rules = kept->rules;
    if (stated != NULL) {
        *stated = kept->stated;
    }
    return status;
}

void plmi_kept_rules_free(struct plmi_kept_rules *kept)
{
    free(kept->text);
    kept->text = NULL;
}
