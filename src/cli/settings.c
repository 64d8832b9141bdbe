/*
 * Settles what is in force: defaults, rules files, then single options. Must not read logs.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <string.h>

#include "cli/settings.h"

void plmi_cli_settings_init(struct plmi_cli_settings *settings)
{
    *settings = (struct plmi_cli_settings){
        .rules_told = {.values = plm_rules_default()},
        .rules = plm_rules_default(),
        .surface_bar = (double)NAN,
        .altitude_m = (double)NAN,
        .water_kg_m3 = (double)NAN,
        .fail_on = PLM_SEVERITY_CAUTION,
    };
}

bool plmi_cli_settings_rule(struct plmi_cli_settings *settings, enum plmi_cli_rule rule, const char *value)
{
    size_t count;
    const struct plm_rule_info *table = plm_rules_table(&count);
    if (plm_rules_set(&settings->rules_told.values, table[rule].key, value) != PLM_STATUS_OK)
        return false;
    settings->rules_told.told[rule] = true;
    return true;
}

/* Copies the field of one rule; a rule of choice is an int. */
static void rule_copy(struct plm_rules *to, const struct plm_rules *from, const struct plm_rule_info *info)
{
    size_t size = info->words != NULL ? sizeof(int) : sizeof(double);
    memcpy((char *)to + info->offset, (const char *)from + info->offset, size);
}

bool plmi_cli_settings_settle(struct plmi_cli_settings *settings, struct plmi_cli_talk *talk)
{
    size_t count;
    const struct plm_rule_info *table = plm_rules_table(&count);
    (void)talk;
    settings->rules = plm_rules_default();
    for (int rule = 0; rule < PLMI_CLI_RULE_COUNT; rule++)
        if (settings->rules_told.told[rule])
            rule_copy(&settings->rules, &settings->rules_told.values, &table[rule]);
    return true;
}
