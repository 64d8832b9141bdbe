/*
 * A dive that would lie beside its team's if only its clock were right: found by the profile, told with the offset that
 * fits.
 * SPDX-License-Identifier: MIT
 */
#include "team/grouping.h"

#include <math.h>

#include "base/text.h"
#include "team/align.h"
#include "team/jobs.h"

/* Offsets that are doubted: set by hand to the wrong zone or half of the day. Less is a slow clock. */
#define OFFSET_LEAST_S 1200.0
#define OFFSET_MOST_S  (13.0 * 3600.0)
#define TWIN_LEAST_S   300.0
/* Team mates' profiles: like depth and duration, and near each other once laid over. */
#define DEPTH_APART     0.15
#define DEPTH_APART_M   3.0
#define DURATION_APART  0.2
#define PROFILE_APART   0.06
#define PROFILE_APART_M 1.5

static bool like_team(const struct plmi_entry *a, const struct plmi_entry *b)
{
    double depth_m = fmax(a->row.max_depth_m, b->row.max_depth_m), wet_s = fmax(a->wet_s, b->wet_s);
    return fabs(a->row.max_depth_m - b->row.max_depth_m) <= fmax(DEPTH_APART_M, DEPTH_APART * depth_m) &&
           fabs(a->wet_s - b->wet_s) <= DURATION_APART * wet_s;
}

/* [s] to add to b's clock so that its profile lies over a's; NaN where it does not. */
static double fitting_offset_s(const struct plmi_entry *a, const struct plmi_entry *b)
{
    struct plmi_fit fit;
    double lags_s[PLMI_LAGS];
    if (plmi_align_lags(lags_s, &a->series, &b->series) < 1) {
        return (double)NAN;
    }
    plmi_align_fit(&fit, lags_s[0], &a->series, &b->series);
    if (!(fit.cost <= fmax(PROFILE_APART_M, PROFILE_APART * a->row.max_depth_m))) {
        return (double)NAN;
    }
    return lags_s[0] - plmi_start_apart_s(&a->row, &b->row);
}

static size_t team_size(struct plmi_entry *const *entries, size_t count, int team)
{
    size_t size = 0;
    for (size_t i = 0; i < count; i++) {
        size += entries[i]->row.team == team && entries[i]->row.twin < 0;
    }
    return size;
}

static bool in_team(struct plmi_entry *const *entries, size_t count, const struct plm_audit_row *row, int team)
{
    for (size_t i = 0; i < count; i++) {
        if (entries[i]->row.team == team && plmi_same_diver(&entries[i]->row, row)) {
            return true;
        }
    }
    return false;
}

static size_t dives_in_file(struct plmi_entry *const *entries, size_t count, const struct plm_audit_row *row)
{
    size_t dives = 0;
    for (size_t i = 0; i < count; i++) {
        dives += plmi_text_same(entries[i]->row.file, row->file);
    }
    return dives;
}

/* Of two dives alone the one from the file with fewer dives is doubted; both where that does not tell. */
static bool doubted(struct plmi_entry *const *entries, size_t count, size_t i, size_t other)
{
    if (team_size(entries, count, entries[other]->row.team) > 1) {
        return true;
    }
    return dives_in_file(entries, count, &entries[i]->row) <= dives_in_file(entries, count, &entries[other]->row);
}

static void doubt_alone(struct plmi_entry *const *entries, size_t count, size_t i)
{
    struct plm_audit_row *row = &entries[i]->row;
    double best_s = (double)NAN;
    for (size_t k = 0; k < count; k++) {
        const struct plm_audit_row *other = &entries[k]->row;
        double apart_s = plmi_wet_apart_s(entries[i], entries[k]);
        if (k == i || other->twin >= 0 || !plmi_other_diver(row, other) || !(fabs(apart_s) < OFFSET_MOST_S) ||
            !like_team(entries[i], entries[k])) {
            continue;
        }
        if (in_team(entries, count, row, other->team) || !doubted(entries, count, i, k)) {
            continue;
        }
        double offset_s = fitting_offset_s(entries[k], entries[i]);
        bool nearer = isnan(best_s) || fabs(offset_s) < fabs(best_s);
        if (fabs(offset_s) > OFFSET_LEAST_S && nearer) {
            best_s = offset_s;
        }
    }
    row->clock_offset_s = best_s;
    row->caution += !isnan(best_s);
}

static void doubt_twin(struct plmi_entry *const *entries, size_t i)
{
    struct plm_audit_row *row = &entries[i]->row;
    struct plm_alignment found;
    const struct plmi_entry *better = entries[row->twin];
    if (!plmi_align_series(&found, &better->series, &entries[i]->series)) {
        return;
    }
    double offset_s = found.record_offset_s - plmi_start_apart_s(&better->row, row);
    if (fabs(offset_s) > TWIN_LEAST_S) {
        row->clock_offset_s = offset_s;
    }
}

/* Only the row's own doubt is written, so that any thread can take any row. */
struct search {
    struct plmi_entry *const *entries;
    size_t count;
};

static void doubt(void *context, size_t i)
{
    const struct search *search = context;
    const struct plm_audit_row *row = &search->entries[i]->row;
    if (row->twin >= 0) {
        doubt_twin(search->entries, i);
    } else if (row->start.known && team_size(search->entries, search->count, row->team) == 1) {
        doubt_alone(search->entries, search->count, i);
    }
}

void plmi_doubt_rows(struct plmi_entry *const *entries, size_t count, int threads)
{
    struct search search = {entries, count};
    plmi_jobs_run(count, threads, doubt, &search);
}
