/*
 * Rules written as a rules file, and read back. Must not leave one out: figures are made by them for ever.
 * SPDX-License-Identifier: MIT
 */
#include "logbook/kept_rules.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <plimsoll/rules_file.h>

char *plmi_kept_rules_write(const struct plm_rules *rules)
{
    size_t count, used = 0;
    const struct plm_rule_info *table = plm_rules_table(&count);
    size_t size = count * 96 + 1;
    char *text = malloc(size);
    for (size_t i = 0; text != NULL && i < count; i++) {
        char value[48];
        int n = snprintf(text + used, size - used, "%s = %s\n", table[i].key,
                         plm_rules_get(rules, table[i].key, value, sizeof value));
        used += n > 0 && (size_t)n < size - used ? (size_t)n : 0;
    }
    return text;
}

enum plm_status plmi_kept_rules_read(struct plmi_kept_rules *kept, const char *text, struct plm_rules *rules,
                                     const struct plm_diag_sink *sink)
{
    struct plm_source *source = NULL;
    const struct plm_rules defaults = plm_rules_default();
    if (kept->text != NULL && strcmp(kept->text, text) == 0) {
        *rules = kept->rules;
        return PLM_STATUS_OK;
    }
    *rules = defaults;
    enum plm_status status =
        plm_source_open_memory(&source, text, strlen(text), "rules of the ledger", &defaults, sink);
    if (status == PLM_STATUS_OK) {
        status = plm_rules_read(rules, NULL, source, sink);
    }
    plm_source_free(source);
    free(kept->text);
    kept->text = status == PLM_STATUS_OK ? strdup(text) : NULL;
    kept->rules = *rules;
    return status;
}

void plmi_kept_rules_free(struct plmi_kept_rules *kept)
{
    free(kept->text);
    kept->text = NULL;
}
