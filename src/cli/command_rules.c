/*
 * plimsoll rules: the rules in force, where each was set and what it stands on. The answer is itself a rules file.
 * Must not judge.
 * SPDX-License-Identifier: MIT
 */
#include <plimsoll/rules_file.h>
#include <stdio.h>

#include "cli/page.h"

static const struct plmi_cli_options *const groups[] = {&plmi_cli_options_page, &plmi_cli_options_model, NULL};

/* One rule: what it means and stands on as comments, then its line. */
static void rule_put(struct plmi_cli_page *page, const struct plmi_cli_settings *settings,
                     const struct plm_rule_info *rule)
{
    char value[48], text[512];
    plmi_cli_page_put(page, "\n");
    snprintf(text, sizeof text, "%s. Source: %s.", rule->meaning, rule->source);
    plmi_cli_page_wrap(page, "# ", text);
    if (rule->words != NULL) {
        snprintf(text, sizeof text, "One of %s.", rule->words);
        plmi_cli_page_wrap(page, "# ", text);
    }
    snprintf(text, sizeof text, "%s = %s  ; %s%s", rule->key,
             plm_rules_get(&settings->rules, rule->key, value, sizeof value), rule->unit,
             rule->unit[0] == '\0' ? "" : ", ");
    plmi_cli_page_put(page, text);
    plmi_cli_page_put(page, plm_rule_origin(settings->origins, rule->key));
    plmi_cli_page_put(page, "\n");
}

static enum plmi_cli_exit rules_run(struct plmi_cli_call *call)
{
    struct plmi_cli_page page;
    if (!plmi_cli_page_open(&page, call)) {
        return PLMI_CLI_EXIT_TROUBLE;
    }
    size_t count = 0;
    const struct plm_rule_info *table = plm_rules_table(&count);
    plmi_cli_page_put(&page, "# The rules in force. Behind each stand its unit and where it was set.\n");
    for (size_t i = 0; i < count; i++) {
        rule_put(&page, &call->settings, &table[i]);
    }
    return plmi_cli_page_finish(&page) ? PLMI_CLI_EXIT_CLEAR : PLMI_CLI_EXIT_TROUBLE;
}

const struct plmi_cli_command plmi_cli_command_rules = {
    .name = "rules",
    .operands = "",
    .summary = "Writes the rules in force, their sources and where each was set, as a rules file",
    .operands_min = 0,
    .operands_max = 0,
    .options = groups,
    .run = rules_run,
};
