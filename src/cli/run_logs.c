/*
 * Walks the logs of a command, dive by dive. Must not write reports.
 * SPDX-License-Identifier: MIT
 */
#include "cli/ledger.h"
#include "cli/run_logs.h"

struct plm_debrief_options plmi_cli_debrief_options(const struct plmi_cli_settings *settings)
{
    struct plm_debrief_options options = plm_debrief_options_default(&settings->rules);
    options.surface_bar = settings->surface_bar;
    options.altitude_m = settings->altitude_m;
    options.water_kg_m3 = settings->water_kg_m3;
    options.dive_index = (int)settings->dive;
    options.schedules = !settings->no_schedule;
    return options;
}

struct plm_log_options plmi_cli_log_options(const struct plmi_cli_settings *settings)
{
    struct plm_log_options options = plm_log_options_default(&settings->rules);
    options.stated = &settings->stated;
    options.import.columns = settings->columns;
    options.import.interval_s = settings->interval_s;
    options.import.date_order = settings->date_order;
    options.import.zero_auto = settings->zero_auto;
    options.card_path = settings->card;
    options.plan_path = settings->plan;
    options.start_clock = settings->start;
    options.zone = settings->zone;
    return options;
}

/* All wanted dives of one open log. Returns: false to stop the run. */
static bool debrief_walk(struct plmi_cli_call *call, struct plm_debrief *debrief, plmi_cli_take *take, void *context,
                         enum plmi_cli_exit *exit)
{
    bool more = true;
    enum plm_status status = PLM_STATUS_OK;
    while (more && status == PLM_STATUS_OK) {
        struct plm_debriefed *one = NULL;
        status = plm_debrief_next(debrief, &one);
        plmi_cli_progress_hide(&call->talk.progress);
        if (status == PLM_STATUS_OK) {
            more = take(context, one, exit);
        }
        plm_debriefed_free(one);
    }
    *exit = plmi_cli_worse(*exit, plmi_cli_exit_of(status));
    if (plm_debrief_partial(debrief)) {
        *exit = plmi_cli_worse(*exit, PLMI_CLI_EXIT_PARTIAL);
    }
    return more;
}

static bool log_walk(struct plmi_cli_call *call, const char *path, const struct plm_debrief_options *options,
                     plmi_cli_take *take, void *context, enum plmi_cli_exit *exit)
{
    struct plm_log_options reading = plmi_cli_log_options(&call->settings);
    struct plm_log *log = NULL;
    struct plm_debrief *debrief = NULL;
    bool more = true;
    reading.digest = !options->replay_only;
    enum plm_status status = plm_log_open(&log, path, &reading, &call->talk.sink);
    if (status == PLM_STATUS_OK) {
        status = plm_debrief_open(&debrief, log, options, &call->talk.sink);
    }
    if (status == PLM_STATUS_OK) {
        more = debrief_walk(call, debrief, take, context, exit);
    }
    *exit = plmi_cli_worse(*exit, plmi_cli_exit_of(status));
    plm_debrief_free(debrief);
    plm_log_free(log);
    return more;
}

enum plmi_cli_exit plmi_cli_logs_walk(struct plmi_cli_call *call, const struct plm_debrief_options *options,
                                      plmi_cli_take *take, void *context)
{
    struct plm_debrief_options with_carried = *options;
    struct plmi_cli_ledger ledger;
    enum plmi_cli_exit exit = PLMI_CLI_EXIT_CLEAR;
    bool more = plmi_cli_carried_open(&ledger, call, &with_carried);
    if (!more) {
        exit = PLMI_CLI_EXIT_TROUBLE;
    }
    for (int i = 0; more && i < call->operand_count; i++) {
        plmi_cli_progress_show(&call->talk.progress, (size_t)i, (size_t)call->operand_count, "logs");
        more = log_walk(call, call->operands[i], &with_carried, take, context, &exit);
    }
    plmi_cli_progress_hide(&call->talk.progress);
    plmi_cli_ledger_close(&ledger);
    return exit;
}
