/*
 * Writes logs as tables and adds them to a ledger.
 * SPDX-License-Identifier: MIT
 */
#include "unit/logbook/made_logbook.h"

#include <check.h>
#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

#include "support/planted.h"

void made_logbook_open(struct made_logbook *made)
{
    *made = (struct made_logbook){.rules = plm_rules_default()};
    (void)snprintf(made->folder, sizeof made->folder, "%s", "/tmp/plimsoll-logbook-XXXXXX");
    ck_assert_ptr_nonnull(mkdtemp(made->folder));
    (void)snprintf(made->path, sizeof made->path, "%s/a.ledger", made->folder);
    made->sink = diag_list_sink(&made->told);
    made->debrief = plm_debrief_options_default(&made->rules);
    ck_assert_int_eq(plm_ledger_open(&made->ledger, made->path, PLM_LEDGER_MAKE, &made->sink), PLM_STATUS_OK);
    ck_assert_int_eq(plm_logbook_open(&made->logbook, made->ledger, &made->sink), PLM_STATUS_OK);
}

void made_logbook_path(const struct made_logbook *made, const char *name, char path[160])
{
    (void)snprintf(path, 160, "%s/%s.csv", made->folder, name);
}

void made_logbook_free(struct made_logbook *made)
{
    char command[96];
    plm_logbook_free(made->logbook);
    plm_ledger_close(made->ledger);
    (void)snprintf(command, sizeof command, "rm -r %s", made->folder);
    ck_assert_int_eq(system(command), 0);
}

void made_logbook_write(const struct made_logbook *made, const struct made_log *log, double again_s)
{
    char path[160];
    made_logbook_path(made, log->name, path);
    FILE *file = fopen(path, "w");
    ck_assert_ptr_nonnull(file);
    if (again_s > 0) {
        (void)fprintf(file, "Start: %s\n\n", log->start);
    }
    (void)fputs("time_s,depth_m,mode,o2_frac,he_frac\n", file);
    const double end_s = log->lead_s + (log->end_s > 0 ? log->end_s : PLANTED_END_S + 60) + again_s;
    for (double time_s = 0; time_s <= end_s; time_s += log->step_s) {
        double dive_s = time_s - log->lead_s - (again_s > 0 && time_s - log->lead_s >= again_s ? again_s : 0);
        double depth_m = dive_s < 0 ? 0 : planted_depth_m(log->body, dive_s);
        (void)fprintf(file, "%.0f,%.3f%s\n", time_s, depth_m < 0 ? 0 : depth_m, time_s > 0 ? ",,," : ",open,0.21,0");
    }
    ck_assert_int_eq(fclose(file), 0);
}

enum plm_status made_logbook_add(struct made_logbook *made, const struct made_log *log,
                                 struct plm_logbook_addition *addition)
{
    char path[160];
    struct plm_log_options reading = plm_log_options_default(&made->rules);
    const struct plm_logbook_options options = {.log = &reading, .debrief = &made->debrief, .diver = log->diver};
    struct plm_logbook_log *open = NULL;
    struct plm_dive *dive = NULL;
    made_logbook_write(made, log, 0);
    made_logbook_path(made, log->name, path);
    reading.start_clock = log->start;
    made->told.count = 0;
    ck_assert_int_eq(plm_logbook_log_open(&open, made->logbook, path, &options, &made->sink), PLM_STATUS_OK);
    ck_assert_int_eq(plm_logbook_log_take(open, &dive), PLM_STATUS_OK);
    enum plm_status status = plm_logbook_add(open, dive, addition);
    ck_assert_int_eq(plm_logbook_log_take(open, &dive), PLM_STATUS_END);
    plm_logbook_log_free(open);
    return status;
}

struct plm_logbook_addition made_logbook_put(struct made_logbook *made, const struct made_log *log)
{
    struct plm_logbook_addition addition;
    enum plm_status status = made_logbook_add(made, log, &addition);
    ck_assert_msg(status == PLM_STATUS_OK, "%s: %s", log->name, made->told.count > 0 ? made->told.lines[0] : "");
    return addition;
}

struct plm_entries *made_logbook_entries(const struct made_logbook *made)
{
    struct plm_entries *entries = NULL;
    ck_assert_int_eq(plm_ledger_entries(&entries, made->ledger, NULL, INT64_MIN, INT64_MAX), PLM_STATUS_OK);
    return entries;
}
