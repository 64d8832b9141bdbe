/*
 * What commands over logs share: opening inputs and the output, and walking dive by dive.
 * Includes public headers of the library only.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_CLI_RUN_LOGS_H
#define PLM_CLI_RUN_LOGS_H

#include <plimsoll/report.h>

#include "cli/command.h"
#include "cli/file.h"

/* Takes one debriefed dive, borrowed. Returns: false to stop the whole run, *exit set. */
typedef bool plmi_cli_take(void *context, const struct plm_debriefed *debriefed, enum plmi_cli_exit *exit);

/* How logs are read, as the settings have it: with card and plan, without a digest. */
struct plm_log_options plmi_cli_log_options(const struct plmi_cli_settings *settings);
/* Options of a debrief as the settings have them. */
struct plm_debrief_options plmi_cli_debrief_options(const struct plmi_cli_settings *settings);

/*
 * Opens each operand in its order, with the card and the plan that go with it, and hands its dives to take. A log that
 * cannot be used is reported and left; the others are read.
 * Returns: the worst that happened.
 */
enum plmi_cli_exit plmi_cli_logs_walk(struct plmi_cli_call *call, const struct plm_debrief_options *options,
                                      plmi_cli_take *take, void *context);

/* Options of a report as the settings and the terminal have them. */
struct plm_report_options plmi_cli_report_options(const struct plmi_cli_call *call);

/* A report on its way to standard output or to -o FILE. */
struct plmi_cli_output {
    struct plmi_cli_file file;
    struct plm_report *report;
};

/* format NULL: the first of the subject. Returns: false when reported. */
bool plmi_cli_output_open(struct plmi_cli_output *output, struct plmi_cli_call *call, enum plm_report_subject subject,
                          const char *format);
/* The same to another path. */
bool plmi_cli_output_open_at(struct plmi_cli_output *output, struct plmi_cli_call *call, const char *path,
                             enum plm_report_subject subject, const char *format);
/* Makes the report whole; where it cannot, nothing of a file stays. Returns: false when reported. */
bool plmi_cli_output_finish(struct plmi_cli_output *output);
void plmi_cli_output_free(struct plmi_cli_output *output);

#endif
