/*
 * Settles what is in force: defaults, rules files, then single options. Must not read logs.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <string.h>

#include <plimsoll/source.h>

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
    if (plm_rules_set(&tried, rule_key(rule), value) != PLM_STATUS_OK) {
        return false;
    }
    settings->rules_given.texts[rule] = value;
    return true;
}

/* Lays one rules file over what is there. */
static bool file_lay(struct plmi_cli_settings *settings, const char *path, const struct plm_diag_sink *sink)
{
    struct plm_source *source = NULL;
    if (plm_source_open_file(&source, path, NULL, &settings->rules, sink) != PLM_STATUS_OK) {
        return false;
    }
    enum plm_status status = plm_rules_read(&settings->rules, settings->origins, source, sink);
    plm_source_free(source);
    return status == PLM_STATUS_OK;
}

static bool options_lay(struct plmi_cli_settings *settings)
{
    const struct plmi_cli_rules_given *given = &settings->rules_given;
    for (int rule = 0; rule < PLMI_CLI_RULE_COUNT; rule++) {
        if (given->texts[rule] != NULL &&
            plm_rules_set_from(&settings->rules, settings->origins, rule_key((enum plmi_cli_rule)rule),
                               given->texts[rule], "command line") != PLM_STATUS_OK) {
            return false;
        }
    }
    return true;
}

/* What the command line or a file of rules says stands before cards and logs. */
static void stated_find(struct plmi_cli_settings *settings)
{
    size_t count;
    const struct plm_rule_info *table = plm_rules_table(&count);
    for (size_t i = 0; i < count; i++) {
        if (strcmp(plm_rule_origin(settings->origins, table[i].key), "default") != 0) {
            plm_rules_stated_add(&settings->stated, table[i].key);
        }
    }
}

bool plmi_cli_settings_settle(struct plmi_cli_settings *settings, struct plmi_cli_talk *talk)
{
    settings->rules = plm_rules_default();
    settings->origins = plm_rule_origins_new();
    bool settled = settings->origins != NULL;
    for (int i = 0; settled && i < settings->rules_given.file_count; i++) {
        settled = file_lay(settings, settings->rules_given.files[i], &talk->sink);
    }
    settled = settled && options_lay(settings);
    if (settled && settings->rules.gf_low_pct > settings->rules.gf_high_pct) {
        plmi_cli_talk_usage(talk, PLM_LEVEL_ERROR,
                            "gf_low_pct is above gf_high_pct once all rules are laid over each other");
        settled = false;
    }
    if (settled) {
        stated_find(settings);
    }
    return settled;
}
