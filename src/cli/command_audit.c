/*
 * plimsoll audit: folders of a team's logs, every dive, worst first. Must not judge; the library does.
 * SPDX-License-Identifier: MIT
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include <plimsoll/number.h>
#include <plimsoll/report_team.h>

#include "cli/audit_pages.h"
#include "cli/diver_file.h"
#include "cli/ledger.h"
#include "cli/print.h"
#include "cli/run_logs.h"

#define JOBS_MAX 256

static const char *set_jobs(struct plmi_cli_settings *settings, const char *value)
{
    int64_t jobs;
    if (!plm_whole_parse(value, &jobs) || jobs < 1 || jobs > JOBS_MAX) {
        return "a whole number from 1 to 256";
    }
    settings->jobs = jobs;
    return NULL;
}

static const char *set_since(struct plmi_cli_settings *settings, const char *value)
{
    settings->since = value;
    return NULL;
}

static const char *set_only(struct plmi_cli_settings *settings, const char *value)
{
    settings->only = value;
    return plmi_cli_diver_expected(value);
}

static const char *set_ledger(struct plmi_cli_settings *settings, const char *value)
{
    settings->ledger = value;
    settings->carry = true;
    return value[0] != '\0' ? NULL : "the name of a file";
}

static const char *set_add(struct plmi_cli_settings *settings, const char *value)
{
    (void)value;
    settings->add = true;
    return NULL;
}

static const struct plmi_cli_option rows[] = {
    {"format", 0, "",
     "how the answer is written: text for people, json with everything, csv with one row a record, html as a page",
     plmi_cli_set_format},
    {"output", 'o', "FILE",
     "write to FILE, which appears when it is whole; with html a folder of the overview, index.html, and a page a dive",
     plmi_cli_set_output},
    {"diver", 0, "NAME", "only the dives of this diver", set_only},
    {"since", 0, "DATE", "only dives that began on this date or later, as 2031-05-06", set_since},
    {"jobs", 'j', "N",
     "how many threads work at a time; as many as there are cores unless told; the answer is the same", set_jobs},
    {"ledger", 0, "FILE", "begin each dive with what its diver carries by this exposure ledger", set_ledger},
    {"add", 0, NULL, "then add the logs to the ledger", set_add},
    {"fail-on", 0, "note|caution|serious|never",
     "least severity of a finding that makes the exit status 1; caution unless told", plmi_cli_set_fail_on},
};

static const struct plmi_cli_options options = {"The answer", rows, sizeof rows / sizeof rows[0]};
static const struct plmi_cli_options *const groups[] = {&options, &plmi_cli_options_model, NULL};

static size_t jobs_wanted(const struct plmi_cli_settings *settings)
{
    long cores = settings->jobs > 0 ? settings->jobs : sysconf(_SC_NPROCESSORS_ONLN);
    return cores < 1 ? 1 : cores > JOBS_MAX ? JOBS_MAX : (size_t)cores;
}

static bool any_fails(const struct plmi_cli_settings *settings, const struct plm_audit *audit)
{
    size_t count;
    const struct plm_audit_row *list = plm_audit_rows(audit, &count);
    if (settings->fail_never) {
        return false;
    }
    for (size_t i = 0; i < count; i++) {
        const size_t counts[] = {list[i].note, list[i].caution, list[i].serious};
        for (enum plm_severity severity = settings->fail_on; severity <= PLM_SEVERITY_SERIOUS; severity++) {
            if (counts[severity] > 0) {
                return true;
            }
        }
    }
    return false;
}

/* With html and -o the answer is a folder of pages. */
static bool in_pages(const struct plmi_cli_settings *settings)
{
    return settings->format != NULL && strcmp(settings->format, "html") == 0 && settings->output != NULL &&
           strcmp(settings->output, "-") != 0;
}

static enum plmi_cli_exit write_report(struct plmi_cli_call *call, const struct plm_audit *audit,
                                       const struct plmi_cli_pages *pages)
{
    const struct plm_report_audited what = {audit, pages != NULL ? plmi_cli_pages_name : NULL};
    struct plmi_cli_output output;
    char *index = pages != NULL ? plmi_cli_pages_path(pages, "index.html") : NULL;
    if (pages != NULL && index == NULL) {
        return PLMI_CLI_EXIT_TROUBLE;
    }
    const char *given = call->settings.output != NULL ? call->settings.output : "-";
    const char *path = index != NULL ? index : given;
    bool written = plmi_cli_output_open_at(&output, call, path, PLM_REPORT_AUDIT, call->settings.format) &&
                   plm_report_audit(output.report, &what) == PLM_STATUS_OK && plmi_cli_output_finish(&output);
    plmi_cli_output_free(&output);
    free(index);
    return written ? PLMI_CLI_EXIT_CLEAR : PLMI_CLI_EXIT_TROUBLE;
}

static enum plmi_cli_exit audit_judge(struct plmi_cli_call *call, const struct plm_audit *audit,
                                      const struct plmi_cli_pages *pages)
{
    size_t troubles;
    const struct plm_audit_trouble *trouble = plm_audit_troubles(audit, &troubles);
    for (size_t i = 0; i < troubles; i++) {
        if (!trouble[i].reported) {
            plmi_cli_print(stderr, "%s\n", trouble[i].text);
        }
    }
    enum plmi_cli_exit exit = write_report(call, audit, pages);
    if (any_fails(&call->settings, audit)) {
        exit = plmi_cli_worse(exit, PLMI_CLI_EXIT_FOUND);
    }
    return troubles > 0 ? plmi_cli_worse(exit, PLMI_CLI_EXIT_PARTIAL) : exit;
}

/* context: the pages, made or not. */
static void progress_show(void *context, size_t done, size_t count)
{
    const struct plmi_cli_pages *pages = context;
    plmi_cli_progress_show(&pages->call->talk.progress, done, count, "files");
}

/* A ledger that is to be added to is made where there is none. */
static bool ledger_ready(struct plmi_cli_call *call)
{
    struct plmi_cli_ledger ledger = {.call = call};
    if (!call->settings.add) {
        return true;
    }
    bool ready = plmi_cli_ledger_open(&ledger, call, PLM_LEDGER_MAKE);
    plmi_cli_ledger_close(&ledger);
    return ready;
}

static enum plmi_cli_exit audit_run(struct plmi_cli_call *call)
{
    const struct plmi_cli_settings *settings = &call->settings;
    struct plm_debrief_options debrief = plmi_cli_debrief_options(settings);
    struct plm_log_options reading = plm_log_options_default(&settings->rules);
    struct plm_audit_options audit_options = plm_audit_options_default(&debrief);
    struct plm_audit *audit = NULL;
    struct plm_stamp since;
    struct plmi_cli_pages pages = {.call = call};
    struct plmi_cli_ledger ledger;
    bool paged = in_pages(settings);
    debrief.schedules = false;
    audit_options.jobs = jobs_wanted(settings);
    audit_options.diver = settings->only;
    audit_options.log = &reading;
    reading.stated = &settings->stated;
    if (settings->since != NULL) {
        if (!plm_stamp_parse(settings->since, &since)) {
            plmi_cli_talk_usage(&call->talk, PLM_LEVEL_ERROR, "--since %s: a date as 2031-05-06 is needed",
                                settings->since);
            return PLMI_CLI_EXIT_TROUBLE;
        }
        audit_options.since_ms = since.local_ms;
    }
    if (paged && !plmi_cli_pages_open(&pages, call, settings->output)) {
        return PLMI_CLI_EXIT_TROUBLE;
    }
    audit_options.each = paged ? plmi_cli_pages_add : NULL;
    audit_options.progress = progress_show;
    audit_options.context = &pages;
    if (!ledger_ready(call) || !plmi_cli_carried_open(&ledger, call, &debrief)) {
        return PLMI_CLI_EXIT_TROUBLE;
    }
    enum plm_status status =
        plm_audit(&audit, call->operands, (size_t)call->operand_count, &audit_options, &call->talk.sink);
    enum plmi_cli_exit exit = plmi_cli_exit_of(status);
    plmi_cli_progress_hide(&call->talk.progress);
    if (audit != NULL) {
        exit = plmi_cli_worse(exit, audit_judge(call, audit, paged ? &pages : NULL));
    }
    plm_audit_free(audit);
    plmi_cli_ledger_close(&ledger);
    return settings->add ? plmi_cli_worse(exit, plmi_cli_command_ledger_add.run(call)) : exit;
}

const struct plmi_cli_command plmi_cli_command_audit = {
    .name = "audit",
    .operands = "PATH...",
    .summary = "Searches folders for logs and tells of every diver's dives, worst first",
    .operands_min = 1,
    .operands_max = -1,
    .reads = true,
    .report = PLM_REPORT_AUDIT,
    .options = groups,
    .run = audit_run,
};
