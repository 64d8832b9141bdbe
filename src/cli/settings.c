/*
 * Settles what is in force: defaults, rules files, then single options. Must not read logs.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "cli/settings.h"

void plmi_cli_settings_init(struct plmi_cli_settings *settings)
{
    *settings = (struct plmi_cli_settings){
        .rules = plm_rules_default(),
        .surface_bar = (double)NAN,
        .altitude_m = (double)NAN,
        .water_kg_m3 = (double)NAN,
        .fail_on = PLM_SEVERITY_CAUTION,
    };
}

void plmi_cli_settings_free(struct plmi_cli_settings *settings)
{
    settings->origins = NULL;
}

static const char *rule_key(enum plmi_cli_rule rule)
{
    size_t count;
    return plm_rules_table(&count)[rule].key;
}

bool plmi_cli_settings_rule(struct plmi_cli_settings *settings, enum plmi_cli_rule rule, const char *value)
{
    struct plm_rules tried = plm_rules_default();
    if (plm_rules_set(&tried, rule_key(rule), value) != PLM_STATUS_OK)
        return false;
    settings->rules_told.texts[rule] = value;
    return true;
}

bool plmi_cli_settings_settle(struct plmi_cli_settings *settings, struct plmi_cli_talk *talk)
{
    const struct plmi_cli_rules_told *told = &settings->rules_told;
    settings->rules = plm_rules_default();
    bool settled = told->file_count == 0;
    if (!settled)
        plmi_cli_talk_usage(talk, PLM_LEVEL_ERROR, "rules files are not read yet");
    for (int rule = 0; settled && rule < PLMI_CLI_RULE_COUNT; rule++)
        if (told->texts[rule] != NULL)
            settled = plm_rules_set(&settings->rules, rule_key((enum plmi_cli_rule)rule), told->texts[rule]) == PLM_STATUS_OK;
    if (settled && settings->rules.gf_low_pct > settings->rules.gf_high_pct) {
        plmi_cli_talk_usage(talk, PLM_LEVEL_ERROR, "gf_low_pct is above gf_high_pct once all rules are laid over each other");
        settled = false;
    }
    return settled;
}
