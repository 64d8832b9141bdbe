/*
 * Walks the logs of a command, dive by dive. Must not write reports.
 * SPDX-License-Identifier: MIT
 */
#include "cli/run_logs.h"

#include <stdio.h>
#include <string.h>

struct plm_debrief_options plmi_cli_debrief_options(const struct plmi_cli_settings *settings)
{
    struct plm_debrief_options options = plm_debrief_options_default(&settings->rules);
    options.import.columns = settings->columns;
    options.import.interval_s = settings->interval_s;
    options.import.date_order = settings->date_order;
    options.import.zero_auto = settings->zero_auto;
    options.surface_bar = settings->surface_bar;
    options.altitude_m = settings->altitude_m;
    options.water_kg_m3 = settings->water_kg_m3;
    options.dive_index = (int)settings->dive;
    options.start_clock = settings->start;
    options.schedules = !settings->no_schedule;
    return options;
}

/* The card of --card FILE. The caller frees *card; NULL where none is asked for. */
static enum plmi_cli_exit card_read(struct plmi_cli_call *call, struct plm_card **card)
{
    const struct plmi_cli_settings *settings = &call->settings;
    struct plm_source *source = NULL;
    *card = NULL;
    if (settings->card == NULL)
        return PLMI_CLI_EXIT_CLEAR;
    enum plm_status status = plm_source_open_file(&source, settings->card, NULL, &settings->rules, &call->talk.sink);
    if (status == PLM_STATUS_OK)
        status = plm_card_read(card, source, &settings->rules, &call->talk.sink);
    plm_source_free(source);
    return plmi_cli_exit_of(status);
}

/* --plan FILE, else the plan that the card names, which lies beside the card. Returns: NULL where there is none. */
static const char *plan_path(const struct plmi_cli_settings *settings, const struct plm_card *card, char *buffer, size_t size)
{
    const char *named = card != NULL ? plm_card_plan(card) : NULL;
    if (settings->plan != NULL || named == NULL)
        return settings->plan;
    const char *slash = strrchr(settings->card, '/');
    int folder = slash != NULL && named[0] != '/' ? (int)(slash - settings->card) + 1 : 0;
    int n = snprintf(buffer, size, "%.*s%s", folder, settings->card, named);
    return n > 0 && (size_t)n < size ? buffer : named;
}

/* The first dive of a plan, read as any log is. The caller frees *plan; NULL where there is none. */
static enum plmi_cli_exit plan_read(struct plmi_cli_call *call, const struct plm_card *card, struct plm_dive **plan)
{
    const struct plmi_cli_settings *settings = &call->settings;
    char buffer[4096];
    const char *path = plan_path(settings, card, buffer, sizeof buffer);
    struct plm_source *source = NULL;
    struct plm_import *import = NULL;
    struct plm_rules rules = settings->rules;
    rules.gap_s = 86400; /* a plan names its corners: the way between them is no gap */
    struct plm_import_options options = {.rules = &rules};
    *plan = NULL;
    if (path == NULL)
        return PLMI_CLI_EXIT_CLEAR;
    enum plm_status status = plm_source_open_file(&source, path, NULL, &settings->rules, &call->talk.sink);
    if (status == PLM_STATUS_OK)
        status = plm_import_open(&import, source, &options, &call->talk.sink);
    if (status == PLM_STATUS_OK)
        status = plm_import_next(import, plan);
    if (status == PLM_STATUS_END) {
        plmi_cli_talk_usage(&call->talk, PLM_LEVEL_ERROR, "the plan %s holds no dive", path);
        status = PLM_STATUS_INPUT;
    }
    plm_import_free(import);
    plm_source_free(source);
    return plmi_cli_exit_of(status);
}

/* All wanted dives of one open log. Returns: false to stop the run. */
static bool debrief_walk(struct plm_debrief *debrief, plmi_cli_take *take, void *context, enum plmi_cli_exit *exit)
{
    bool more = true;
    enum plm_status status = PLM_STATUS_OK;
    while (more && status == PLM_STATUS_OK) {
        struct plm_debriefed *one = NULL;
        status = plm_debrief_next(debrief, &one);
        if (status == PLM_STATUS_OK)
            more = take(context, one, exit);
        plm_debriefed_free(one);
    }
    *exit = plmi_cli_worse(*exit, plmi_cli_exit_of(status));
    if (plm_debrief_partial(debrief))
        *exit = plmi_cli_worse(*exit, PLMI_CLI_EXIT_PARTIAL);
    return more;
}

static bool log_walk(struct plmi_cli_call *call, const char *path, const struct plm_debrief_options *options, plmi_cli_take *take,
                     void *context, enum plmi_cli_exit *exit)
{
    struct plm_source *source = NULL;
    struct plm_debrief *debrief = NULL;
    bool more = true;
    enum plm_status status = plm_source_open_file(&source, path, NULL, options->import.rules, &call->talk.sink);
    if (status == PLM_STATUS_OK)
        status = plm_debrief_open(&debrief, source, options, &call->talk.sink);
    if (status == PLM_STATUS_OK)
        more = debrief_walk(debrief, take, context, exit);
    *exit = plmi_cli_worse(*exit, plmi_cli_exit_of(status));
    plm_debrief_free(debrief);
    plm_source_free(source);
    return more;
}

enum plmi_cli_exit plmi_cli_logs_walk(struct plmi_cli_call *call, struct plm_debrief_options *options, plmi_cli_take *take, void *context)
{
    struct plm_dive *plan = NULL;
    struct plm_card *card = NULL;
    enum plmi_cli_exit exit = card_read(call, &card);
    if (exit == PLMI_CLI_EXIT_CLEAR)
        exit = plan_read(call, card, &plan);
    options->card = card;
    bool more = exit == PLMI_CLI_EXIT_CLEAR;
    options->plan = plan;
    for (int i = 0; more && i < call->operand_count; i++)
        more = log_walk(call, call->operands[i], options, take, context, &exit);
    options->plan = NULL;
    options->card = NULL;
    plm_dive_free(plan);
    plm_card_free(card);
    return exit;
}
