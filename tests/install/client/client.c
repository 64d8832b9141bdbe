/*
 * A client of the installed library: prints its version, then the JSON
 * debrief of a dive that it holds in memory.
 * Must include public headers only.
 * SPDX-License-Identifier: MIT
 */
#include <plimsoll/debrief.h>
#include <plimsoll/report.h>
#include <plimsoll/version.h>
#include <stdio.h>

static const char log_bytes[] = "time_s,depth_m,o2_frac\n0,0,0.32\n120,24,\n1200,24,\n1320,6,\n1500,6,\n1560,0,\n";

static void print_diag(void *context, const struct plm_diag *diag)
{
    char line[512];
    (void)context;
    (void)plm_diag_format(diag, line, sizeof line);
    (void)fprintf(stderr, "%s\n", line);
}

static enum plm_status print_bytes(void *context, const void *bytes, size_t count)
{
    (void)context;
    return fwrite(bytes, 1, count, stdout) == count ? PLM_STATUS_OK : PLM_STATUS_IO;
}

static enum plm_status print_debrief(struct plm_debrief *debrief, const struct plm_rules *rules,
                                     const struct plm_diag_sink *diag)
{
    const struct plm_report_options options = plm_report_options_default(rules);
    const struct plm_sink out = {print_bytes, NULL};
    struct plm_report *report = NULL;
    struct plm_debriefed *debriefed = NULL;
    enum plm_status status = plm_report_open(&report, PLM_REPORT_DEBRIEF, "json", &options, &out, diag);
    while (status == PLM_STATUS_OK) {
        status = plm_debrief_next(debrief, &debriefed);
        if (status == PLM_STATUS_OK) {
            status = plm_report_add(report, debriefed);
            plm_debriefed_free(debriefed);
        }
    }
    if (status == PLM_STATUS_END) {
        status = plm_report_finish(report);
    }
    plm_report_free(report);
    return status;
}

int main(void)
{
    const struct plm_rules rules = plm_rules_default();
    const struct plm_debrief_options options = plm_debrief_options_default(&rules);
    const struct plm_diag_sink diag = {print_diag, NULL};
    const struct plm_log_options reading = plm_log_options_default(&rules);
    struct plm_source *source = NULL;
    struct plm_log *log = NULL;
    struct plm_debrief *debrief = NULL;
    (void)puts(plm_version_get());
    enum plm_status status = plm_source_open_memory(&source, log_bytes, sizeof log_bytes - 1, "log", &rules, &diag);
    if (status == PLM_STATUS_OK) {
        status = plm_log_open_source(&log, source, &reading, &diag);
    }
    if (status == PLM_STATUS_OK) {
        status = plm_debrief_open(&debrief, log, &options, &diag);
    }
    if (status == PLM_STATUS_OK) {
        status = print_debrief(debrief, &rules, &diag);
    }
    plm_debrief_free(debrief);
    plm_log_free(log);
    plm_source_free(source);
    return status == PLM_STATUS_OK ? 0 : 1;
}
