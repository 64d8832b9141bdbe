/*
 * plimsoll ledger list: whose dives the ledger holds. Must not compute.
 * SPDX-License-Identifier: MIT
 */
#include <plimsoll/report_ledger.h>

#include "cli/ledger.h"
#include "cli/run_logs.h"

static const struct plmi_cli_option rows[] = {
    {"format", 0, "", "how the answer is written: text for people, json with everything, csv with one row a dive",
     plmi_cli_set_format},
    {"output", 'o', "FILE", "write to FILE, which appears when it is whole; compressed where it ends in .gz",
     plmi_cli_set_output},
};

static const struct plmi_cli_options options = {"The answer", rows, sizeof rows / sizeof rows[0]};
static const struct plmi_cli_options *const groups[] = {&options, &plmi_cli_options_ledger, NULL};

static enum plmi_cli_exit list_write(struct plmi_cli_ledger *ledger)
{
    struct plmi_cli_call *call = ledger->call;
    struct plm_entries *entries = NULL;
    struct plm_ledger_listed listed;
    struct plmi_cli_output output;
    enum plm_status status = plm_ledger_entries(
        &entries, ledger->file, call->operand_count > 0 ? call->operands[0] : NULL, INT64_MIN, INT64_MAX);
    if (status != PLM_STATUS_OK) {
        return plmi_cli_exit_of(status);
    }
    listed.dives = plm_entries_get(entries, &listed.dive_count);
    bool written = plmi_cli_output_open(&output, call, PLM_REPORT_LEDGER_LIST, call->settings.format) &&
                   plm_report_ledger_list(output.report, &listed) == PLM_STATUS_OK && plmi_cli_output_finish(&output);
    plmi_cli_output_free(&output);
    plm_entries_free(entries);
    return written ? PLMI_CLI_EXIT_CLEAR : PLMI_CLI_EXIT_TROUBLE;
}

static enum plmi_cli_exit list_run(struct plmi_cli_call *call)
{
    struct plmi_cli_ledger ledger;
    enum plmi_cli_exit exit = PLMI_CLI_EXIT_TROUBLE;
    if (plmi_cli_ledger_open(&ledger, call, PLM_LEDGER_READ)) {
        exit = list_write(&ledger);
    }
    plmi_cli_ledger_close(&ledger);
    return exit;
}

const struct plmi_cli_command plmi_cli_command_ledger_list = {
    .name = "ledger list",
    .operands = "[DIVER]",
    .summary = "Lists divers and their dives, each with its number",
    .operands_min = 0,
    .operands_max = 1,
    .report = PLM_REPORT_LEDGER_LIST,
    .options = groups,
    .run = list_run,
};
