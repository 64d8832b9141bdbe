/*
 * The inside of an audit: files, dives, rows; and the work on one file.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_TEAM_AUDIT_H
#define PLM_TEAM_AUDIT_H

#include <pthread.h>

#include "team/audited.h"
#include "team/file_walk.h"

struct plm_audit {
    struct plmi_arena arena;
    struct plmi_file_walk walk;
    struct plmi_audited_file *files; /* one a file of the walk */
    size_t file_count;
    struct plm_audit_row *rows; /* sorted; other records point into it */
    size_t row_count;
    struct plm_audit_trouble *troubles;
    size_t trouble_count, passed_over, read;
    bool failed; /* one of the caller's functions did not come to its end */
};

/* What all threads share. lock guards the caller's functions and done. */
struct plmi_audit_run {
    struct plm_audit *audit;
    const struct plm_audit_options *options;
    pthread_mutex_t lock;
    size_t done;
    bool failed; /* one of the caller's functions failed */
};

/* Records of one dive are held against each other; what they tell differently is counted with the better one's
 * findings. Returns: false without memory. */
bool plmi_audit_compare_other_records(struct plmi_audit_run *run, struct plmi_audited_dive *const *dives, size_t count);

/* How the audit reads a log. */
struct plm_log_options plmi_audit_log_options(const struct plm_audit_options *options);

/* Debriefs one file of the audit, for plmi_jobs_run; context is a run. */
void plmi_audit_file(void *context, size_t i);

#endif
