/*
 * The records of one diver's one dive, read once more and reconciled: did both tell the same story?
 * SPDX-License-Identifier: MIT
 */
#include <stdlib.h>
#include <string.h>

#include <plimsoll/reconcile.h>

#include "team/audit.h"
#include "team/jobs.h"

/* One record, open while it is compared. */
struct record {
    struct plm_log *log;
    struct plm_debrief *debrief;
    struct plm_debriefed *one;
};

/* What a pair came to; filled by one thread. counts by severity; text on the heap. */
struct reported {
    size_t other_record;
    size_t counts[PLM_SEVERITY_SERIOUS + 1];
    struct plm_difference worst;
    char *text;
    bool no_memory;
};

struct search {
    struct plmi_audit_run *run;
    struct plmi_audited_dive *const *dives;
    struct reported *reported;
};

static enum plm_status record_open(struct record *record, const struct plmi_audit_run *run,
                                   const struct plm_audit_row *row)
{
    const struct plm_diag_sink silent = {NULL, NULL};
    struct plm_log_options reading = plmi_audit_log_options(run->options);
    struct plm_debrief_options options = *run->options->debrief;
    reading.digest = false;
    reading.without_plan = true;
    options.dive_index = row->index;
    options.replay_only = true;
    options.schedules = false;
    options.residual_find = NULL;
    enum plm_status status = plm_log_open(&record->log, row->file, &reading, &silent);
    if (status == PLM_STATUS_OK) {
        status = plm_debrief_open(&record->debrief, record->log, &options, &silent);
    }
    return status == PLM_STATUS_OK ? plm_debrief_next(record->debrief, &record->one) : status;
}

static void record_close(struct record *record)
{
    plm_debriefed_free(record->one);
    plm_debrief_free(record->debrief);
    plm_log_free(record->log);
}

static void take(struct reported *reported, const struct plm_reconciliation *reconciliation)
{
    size_t count;
    const struct plm_reconciled_pair *pair = plm_reconciliation_pairs(reconciliation, &count);
    const struct plm_difference *worst = NULL;
    for (size_t i = 0; i < pair->count; i++) {
        const struct plm_difference *difference = &pair->differences[i];
        reported->counts[difference->severity]++;
        if (worst == NULL || difference->severity > worst->severity) {
            worst = difference;
        }
    }
    if (worst == NULL) {
        return;
    }
    reported->worst = *worst;
    reported->worst.a = reported->worst.b = reported->worst.text = NULL;
    size_t size = strlen(worst->text) + 1;
    reported->text = malloc(size);
    reported->no_memory = reported->text == NULL;
    if (reported->text != NULL) {
        memcpy(reported->text, worst->text, size);
    }
}

static void compare(void *context, size_t i)
{
    const struct search *search = context;
    struct reported *reported = &search->reported[i];
    const struct plm_diag_sink silent = {NULL, NULL};
    const struct plm_audit_row *row = &search->dives[reported->other_record]->row;
    struct record records[2] = {{.log = NULL}, {.log = NULL}};
    struct plm_reconciliation *reconciliation = NULL;
    enum plm_status status = record_open(&records[0], search->run, &search->dives[row->other_record]->row);
    if (status == PLM_STATUS_OK) {
        status = record_open(&records[1], search->run, row);
    }
    if (status == PLM_STATUS_OK) {
        const struct plm_debriefed *ones[2] = {records[0].one, records[1].one};
        status = plm_reconcile(&reconciliation, ones, 2, &ones[0]->replay, &silent);
    }
    if (status == PLM_STATUS_OK) {
        take(reported, reconciliation);
    }
    reported->no_memory = reported->no_memory || status == PLM_STATUS_MEMORY;
    plm_reconciliation_free(reconciliation);
    record_close(&records[0]);
    record_close(&records[1]);
}

/* Adds what a pair came to to the row of the better record. */
static bool settle(struct plmi_audit_run *run, struct plmi_audited_dive *const *dives, struct reported *reported)
{
    struct plm_audit_row *row = &dives[dives[reported->other_record]->row.other_record]->row;
    row->note += reported->counts[PLM_SEVERITY_NOTE];
    row->caution += reported->counts[PLM_SEVERITY_CAUTION];
    row->disagreements += reported->counts[PLM_SEVERITY_NOTE] + reported->counts[PLM_SEVERITY_CAUTION];
    if (reported->text != NULL &&
        (row->disagreement.text == NULL || reported->worst.severity > row->disagreement.severity)) {
        row->disagreement = reported->worst;
        row->disagreement.text = plmi_arena_text(&run->audit->arena, reported->text, strlen(reported->text));
    }
    bool ok = !reported->no_memory && (reported->text == NULL || row->disagreement.text != NULL);
    free(reported->text);
    return ok;
}

bool plmi_audit_compare_other_records(struct plmi_audit_run *run, struct plmi_audited_dive *const *dives, size_t count)
{
    struct search search = {run, dives, calloc(count + 1, sizeof *search.reported)};
    size_t pairs = 0;
    bool ok = search.reported != NULL;
    if (!ok) {
        return false;
    }
    for (size_t i = 0; i < count; i++) {
        if (dives[i]->row.other_record >= 0) {
            search.reported[pairs++].other_record = i;
        }
    }
    plmi_jobs_run(pairs, run->options->jobs, compare, &search);
    for (size_t i = 0; i < pairs; i++) {
        ok = settle(run, dives, &search.reported[i]) && ok;
    }
    free(search.reported);
    return ok;
}
