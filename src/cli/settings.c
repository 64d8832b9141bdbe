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
    plm_rule_origins_free(settings->origins);
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

static bool file_lay(struct plmi_cli_settings *settings, const char *path, struct plmi_cli_talk *talk)
{
    struct plm_source *source = NULL;
    enum plm_status status = plm_source_open_file(&source, path, NULL, &settings->rules, &talk->sink);
    if (status == PLM_STATUS_OK)
        status = plm_rules_read(&settings->rules, settings->origins, source, &talk->sink);
    plm_source_free(source);
    return status == PLM_STATUS_OK;
}

bool plmi_cli_settings_settle(struct plmi_cli_settings *settings, struct plmi_cli_talk *talk)
{
    const struct plmi_cli_rules_told *told = &settings->rules_told;
    settings->rules = plm_rules_default();
    settings->origins = plm_rule_origins_new();
    bool settled = settings->origins != NULL;
    if (!settled)
        plmi_cli_talk_usage(talk, PLM_LEVEL_ERROR, "no memory");
    for (int i = 0; settled && i < told->file_count; i++)
        settled = file_lay(settings, told->files[i], talk);
    for (int rule = 0; settled && rule < PLMI_CLI_RULE_COUNT; rule++)
        if (told->texts[rule] != NULL)
            settled = plm_rules_set_from(&settings->rules, settings->origins, rule_key((enum plmi_cli_rule)rule), told->texts[rule],
                                         "command line") == PLM_STATUS_OK;
    if (settled && settings->rules.gf_low_pct > settings->rules.gf_high_pct) {
        plmi_cli_talk_usage(talk, PLM_LEVEL_ERROR, "gf_low_pct is above gf_high_pct once all rules are laid over each other");
        settled = false;
    }
    return settled;
}
