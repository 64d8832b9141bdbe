/*
 * The rule of threads in plimsoll.h: threads that read one debriefed dive while each debriefs the log by objects of its
 * own all write what one thread alone writes.
 * SPDX-License-Identifier: MIT
 */
#include <plimsoll/plimsoll.h>
#include <pthread.h>
#include <string.h>

#include "support/memory_sink.h"
#include "support/suite.h"

enum { THREADS = 4, ROUNDS = 3 };

static const char log_bytes[] = "time_s,depth_m,o2_frac\n0,0,0.28\n150,38,\n1500,38,\n1700,12,\n1760,3,\n1800,0,\n4000,"
                                "0,\n4100,20,\n5000,20,\n5100,0,\n";

/* What all threads read. */
struct shared {
    struct plm_rules rules;
    struct plm_debriefed *debriefed;
};

/* One thread: what it reads, and what it wrote. */
struct worker {
    const struct shared *shared;
    struct plmi_text of_shared, of_own;
    enum plm_status status;
};

static struct plm_debriefed *debrief(const struct plm_rules *rules)
{
    const struct plm_debrief_options options = plm_debrief_options_default(rules);
    const struct plm_log_options reading = plm_log_options_default(rules);
    struct plm_source *source = NULL;
    struct plm_log *log = NULL;
    struct plm_debrief *debrief = NULL;
    struct plm_debriefed *out = NULL;
    enum plm_status status = plm_source_open_memory(&source, log_bytes, sizeof log_bytes - 1, "log", rules, NULL);
    if (status == PLM_STATUS_OK) {
        status = plm_log_open_source(&log, source, &reading, NULL);
    }
    if (status == PLM_STATUS_OK) {
        status = plm_debrief_open(&debrief, log, &options, NULL);
    }
    if (status == PLM_STATUS_OK) {
        (void)plm_debrief_next(debrief, &out);
    }
    if (out != NULL) {
        out->verdict = NULL; /* it ends with the log */
    }
    plm_debrief_free(debrief);
    plm_log_free(log);
    plm_source_free(source);
    return out;
}

static enum plm_status report(struct plmi_text *out, const struct plm_rules *rules,
                              const struct plm_debriefed *debriefed)
{
    const struct plm_report_options options = plm_report_options_default(rules);
    const struct plm_sink sink = memory_sink(out);
    struct plm_report *report = NULL;
    enum plm_status status = plm_report_open(&report, PLM_REPORT_DEBRIEF, "json", &options, &sink, NULL);
    if (status == PLM_STATUS_OK) {
        status = plm_report_add(report, debriefed);
    }
    if (status == PLM_STATUS_OK) {
        status = plm_report_finish(report);
    }
    plm_report_free(report);
    return status;
}

static void *work(void *context)
{
    struct worker *worker = context;
    for (int round = 0; round < ROUNDS && worker->status == PLM_STATUS_OK; round++) {
        struct plm_debriefed *own = debrief(&worker->shared->rules);
        plmi_text_clear(&worker->of_shared);
        plmi_text_clear(&worker->of_own);
        worker->status = report(&worker->of_shared, &worker->shared->rules, worker->shared->debriefed);
        if (worker->status == PLM_STATUS_OK) {
            worker->status = own == NULL ? PLM_STATUS_MEMORY : report(&worker->of_own, &worker->shared->rules, own);
        }
        plm_debriefed_free(own);
    }
    return NULL;
}

START_TEST(threads_share_values_and_have_objects_of_their_own)
{
    struct shared shared = {.rules = plm_rules_default()};
    struct worker workers[THREADS];
    pthread_t threads[THREADS];
    struct plmi_text want;
    plmi_text_init(&want);
    shared.debriefed = debrief(&shared.rules);
    ck_assert_ptr_nonnull(shared.debriefed);
    ck_assert_int_eq(report(&want, &shared.rules, shared.debriefed), PLM_STATUS_OK);
    ck_assert_ptr_nonnull(strstr(want.bytes, "\"max_depth_m\": 38"));
    for (size_t i = 0; i < THREADS; i++) {
        workers[i] = (struct worker){.shared = &shared, .status = PLM_STATUS_OK};
        plmi_text_init(&workers[i].of_shared);
        plmi_text_init(&workers[i].of_own);
        ck_assert_int_eq(pthread_create(&threads[i], NULL, work, &workers[i]), 0);
    }
    for (size_t i = 0; i < THREADS; i++) {
        ck_assert_int_eq(pthread_join(threads[i], NULL), 0);
        ck_assert_int_eq(workers[i].status, PLM_STATUS_OK);
        ck_assert_str_eq(workers[i].of_shared.bytes, want.bytes);
        ck_assert_str_eq(workers[i].of_own.bytes, want.bytes);
        plmi_text_free(&workers[i].of_shared);
        plmi_text_free(&workers[i].of_own);
    }
    plm_debriefed_free(shared.debriefed);
    plmi_text_free(&want);
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {threads_share_values_and_have_objects_of_their_own};
    return SUITE_RUN("threads", tests);
}
