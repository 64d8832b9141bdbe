/*
 * plimsoll explain: what a kind of finding means, how it is reached and what to ask the diver.
 * Must not judge.
 * SPDX-License-Identifier: MIT
 */
#include <plimsoll/nearest.h>
#include <plimsoll/review.h>
#include <stdio.h>
#include <string.h>

#include "cli/page.h"

static const struct plmi_cli_options *const groups[] = {&plmi_cli_options_page, NULL};

static int kind_find(const char *word)
{
    for (int kind = 0; kind < PLM_FINDING_COUNT; kind++) {
        if (strcmp(plm_finding_kind_text((enum plm_finding_kind)kind), word) == 0) {
            return kind;
        }
    }
    return -1;
}

static const char *kind_nearest(const char *word)
{
    struct plm_nearest nearest = plm_nearest_begin(word);
    for (int kind = 0; kind < PLM_FINDING_COUNT; kind++) {
        plm_nearest_offer(&nearest, plm_finding_kind_text((enum plm_finding_kind)kind));
    }
    return nearest.known;
}

static void section_put(struct plmi_cli_page *page, const char *heading, const char *text)
{
    plmi_cli_page_put(page, "\n");
    plmi_cli_page_put(page, heading);
    plmi_cli_page_put(page, "\n");
    plmi_cli_page_wrap(page, "  ", text);
}

static void kind_put(struct plmi_cli_page *page, enum plm_finding_kind kind)
{
    char title[160];
    const struct plm_explanation *explanation = plm_finding_explain(kind);
    const char *unit = plm_finding_kind_unit(kind);
    snprintf(title, sizeof title, "%s: %s%s%s%s\n", plm_finding_kind_text(kind), plm_finding_kind_meaning(kind),
             unit[0] == '\0' ? "" : " [", unit, unit[0] == '\0' ? "" : "]");
    plmi_cli_page_put(page, title);
    section_put(page, "What it means", explanation->what);
    section_put(page, "How severe", explanation->reached);
    section_put(page, "How it is found", explanation->formula);
    section_put(page, "What it stands on", explanation->source);
    section_put(page, "What to ask the diver", explanation->ask);
}

/* Without a kind: all of them, a line each. */
static void list_put(struct plmi_cli_page *page)
{
    char line[160];
    for (int kind = 0; kind < PLM_FINDING_COUNT; kind++) {
        snprintf(line, sizeof line, "%-22s%s\n", plm_finding_kind_text((enum plm_finding_kind)kind),
                 plm_finding_kind_meaning((enum plm_finding_kind)kind));
        plmi_cli_page_put(page, line);
    }
}

static bool kinds_known(struct plmi_cli_call *call)
{
    for (int i = 0; i < call->operand_count; i++) {
        if (kind_find(call->operands[i]) < 0) {
            plmi_cli_talk_usage(&call->talk, PLM_LEVEL_ERROR, "no kind of finding \"%s\"; the nearest is %s",
                                call->operands[i], kind_nearest(call->operands[i]));
            return false;
        }
    }
    return true;
}

static enum plmi_cli_exit explain_run(struct plmi_cli_call *call)
{
    struct plmi_cli_page page;
    if (!kinds_known(call) || !plmi_cli_page_open(&page, call)) {
        return PLMI_CLI_EXIT_TROUBLE;
    }
    if (call->operand_count == 0) {
        list_put(&page);
    }
    for (int i = 0; i < call->operand_count; i++) {
        if (i > 0) {
            plmi_cli_page_put(&page, "\n\n");
        }
        kind_put(&page, (enum plm_finding_kind)kind_find(call->operands[i]));
    }
    return plmi_cli_page_finish(&page) ? PLMI_CLI_EXIT_CLEAR : PLMI_CLI_EXIT_TROUBLE;
}

const struct plmi_cli_command plmi_cli_command_explain = {
    .name = "explain",
    .operands = "[KIND...]",
    .summary = "Tells what a kind of finding means, how it is found and what to ask the diver; without a kind, which "
               "there are",
    .operands_min = 0,
    .operands_max = -1,
    .options = groups,
    .run = explain_run,
};
