/*
 * A dive that would lie beside its team's if only its clock were right: found by the profile, shown with the offset
 * that fits.
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
/* Time zones are whole quarters of an hour apart, and clocks are set by hand to within two minutes. */
#define QUARTER_S      900.0
#define QUARTER_NEAR_S 120.0

static bool like_team(const struct plmi_audited_dive *a, const struct plmi_audited_dive *b)
{
    double depth_m = fmax(a->row.max_depth_m, b->row.max_depth_m), wet_s = fmax(a->wet_s, b->wet_s);
    return fabs(a->row.max_depth_m - b->row.max_depth_m) <= fmax(DEPTH_APART_M, DEPTH_APART * depth_m) &&
           fabs(a->wet_s - b->wet_s) <= DURATION_APART * wet_s;
}

static bool fits(double apart_m, const struct plmi_audited_dive *a)
{
    return apart_m <= fmax(PROFILE_APART_M, PROFILE_APART * a->row.max_depth_m);
}

/* The whole quarter of an hour beside an offset of b's clock, where b's profile lies over a's by it as well: a zone set
 * wrong. Else the offset. apart_s: start of b less start of a. */
static double likely_offset_s(double offset_s, double apart_s, const struct plmi_audited_dive *a,
                              const struct plmi_audited_dive *b)
{
    double quarter_s = QUARTER_S * round(offset_s / QUARTER_S);
    bool near = fabs(quarter_s) > 0 && fabs(offset_s - quarter_s) <= QUARTER_NEAR_S;
    return near && fits(plmi_align_apart_m(quarter_s + apart_s, &a->series, &b->series), a) ? quarter_s : offset_s;
}

/* [s] to add to b's clock so that its profile lies over a's; NaN where it does not. */
static double fitting_offset_s(const struct plmi_audited_dive *a, const struct plmi_audited_dive *b)
{
    struct plmi_fit fit;
    double lags_s[PLMI_LAGS];
    if (plmi_align_lags(lags_s, &a->series, &b->series) < 1) {
        return (double)NAN;
    }
    plmi_align_fit(&fit, lags_s[0], &a->series, &b->series);
    if (!fits(fit.cost, a)) {
        return (double)NAN;
    }
    double apart_s = plmi_start_apart_s(&a->row, &b->row);
    return likely_offset_s(lags_s[0] - apart_s, apart_s, a, b);
}

static size_t team_size(struct plmi_audited_dive *const *dives, size_t count, int team)
{
    size_t size = 0;
    for (size_t i = 0; i < count; i++) {
        size += dives[i]->row.team == team && dives[i]->row.other_record < 0;
    }
    return size;
}

static bool in_team(struct plmi_audited_dive *const *dives, size_t count, const struct plm_audit_row *row, int team)
{
    for (size_t i = 0; i < count; i++) {
        if (dives[i]->row.team == team && plmi_same_diver(&dives[i]->row, row)) {
            return true;
        }
    }
    return false;
}

static size_t dives_in_file(struct plmi_audited_dive *const *dives, size_t count, const struct plm_audit_row *row)
{
    size_t found = 0;
    for (size_t i = 0; i < count; i++) {
        found += plmi_text_same(dives[i]->row.file, row->file);
    }
    return found;
}

/* Of two dives alone the one from the file with fewer dives is doubted; both where that does not tell. */
static bool doubted(struct plmi_audited_dive *const *dives, size_t count, size_t i, size_t other)
{
    if (team_size(dives, count, dives[other]->row.team) > 1) {
        return true;
    }
    return dives_in_file(dives, count, &dives[i]->row) <= dives_in_file(dives, count, &dives[other]->row);
}

/* One kind, one level: a note, whichever way it was found. */
static void doubt_add(struct plm_audit_row *row, double offset_s)
{
    row->clock_offset_s = offset_s;
    row->note++;
}

static void doubt_alone(struct plmi_audited_dive *const *dives, size_t count, size_t i)
{
    struct plm_audit_row *row = &dives[i]->row;
    double best_s = (double)NAN;
    for (size_t k = 0; k < count; k++) {
        const struct plm_audit_row *other = &dives[k]->row;
        double apart_s = plmi_wet_apart_s(dives[i], dives[k]);
        if (k == i || other->other_record >= 0 || !plmi_other_diver(row, other) || !(fabs(apart_s) < OFFSET_MOST_S) ||
            !like_team(dives[i], dives[k])) {
            continue;
        }
        if (in_team(dives, count, row, other->team) || !doubted(dives, count, i, k)) {
            continue;
        }
        double offset_s = fitting_offset_s(dives[k], dives[i]);
        bool nearer = isnan(best_s) || fabs(offset_s) < fabs(best_s);
        if (fabs(offset_s) > OFFSET_LEAST_S && nearer) {
            best_s = offset_s;
        }
    }
    if (!isnan(best_s)) {
        doubt_add(row, best_s);
    }
}

static void doubt_other_record(struct plmi_audited_dive *const *dives, size_t i)
{
    struct plm_audit_row *row = &dives[i]->row;
    struct plm_alignment found;
    const struct plmi_audited_dive *better = dives[row->other_record];
    if (!plmi_align_series(&found, &better->series, &dives[i]->series)) {
        return;
    }
    double apart_s = plmi_start_apart_s(&better->row, row), offset_s = found.record_offset_s - apart_s;
    if (fabs(offset_s) > TWIN_LEAST_S) {
        doubt_add(row, likely_offset_s(offset_s, apart_s, better, dives[i]));
    }
}

/* Only the row's own doubt is written, so that any thread can take any row. */
struct search {
    struct plmi_audited_dive *const *dives;
    size_t count;
};

static void doubt(void *context, size_t i)
{
    const struct search *search = context;
    const struct plm_audit_row *row = &search->dives[i]->row;
    if (row->other_record >= 0) {
        doubt_other_record(search->dives, i);
    } else if (row->start.known && team_size(search->dives, search->count, row->team) == 1) {
        doubt_alone(search->dives, search->count, i);
    }
}

void plmi_doubt_rows(struct plmi_audited_dive *const *dives, size_t count, size_t threads)
{
    struct search search = {dives, count};
    plmi_jobs_run(count, threads, doubt, &search);
}
