/*
 * Two records of one diver's one dive are found by name, likeness in figures, and then by the profiles.
 * SPDX-License-Identifier: MIT
 */
#include "team/grouping.h"

#include <math.h>

#include <plimsoll/names.h>

#include "team/align.h"
#include "team/jobs.h"

/* Clocks of one diver's recorders may be this far apart [s]. */
#define CLOCKS_S (26.0 * 3600.0)
/* Depth and wet time that one dive's records share: metres, seconds, and a part of the larger. */
#define DEPTH_APART_M 1.5
#define DEPTH_APART   0.03
#define WET_APART_S   180.0
#define WET_APART     0.15

bool plmi_same_diver(const struct plm_audit_row *a, const struct plm_audit_row *b)
{
    return plm_name_same(a->diver, b->diver);
}

bool plmi_other_diver(const struct plm_audit_row *a, const struct plm_audit_row *b)
{
    return a->diver != NULL && b->diver != NULL && !plm_name_same(a->diver, b->diver);
}

double plmi_start_apart_s(const struct plm_audit_row *a, const struct plm_audit_row *b)
{
    if (!a->start.known || !b->start.known || !a->start.has_clock || !b->start.has_clock) {
        return (double)NAN;
    }
    int64_t apart_ms = b->start.local_ms - a->start.local_ms;
    if (a->start.has_zone && b->start.has_zone) {
        apart_ms -= (int64_t)(b->start.offset_min - a->start.offset_min) * 60000;
    }
    return (double)apart_ms / 1000.0;
}

double plmi_wet_apart_s(const struct plmi_audited_dive *a, const struct plmi_audited_dive *b)
{
    return plmi_start_apart_s(&a->row, &b->row) + b->before_s - a->before_s;
}

double plmi_wet_length_s(const struct plmi_audited_dive *audited)
{
    return audited->row.duration_s - audited->before_s - audited->after_s;
}

static bool alike(double a, double b, double least, double part)
{
    return fabs(a - b) <= fmax(least, part * fmax(a, b));
}

/* Cheap questions first, so that profiles are laid over each other only where it may be one dive. */
static bool candidates(const struct plmi_audited_dive *a, const struct plmi_audited_dive *b)
{
    double apart_s = plmi_wet_apart_s(a, b);
    if (plmi_other_diver(&a->row, &b->row)) {
        return false;
    }
    if (!alike(a->row.max_depth_m, b->row.max_depth_m, DEPTH_APART_M, DEPTH_APART) ||
        !alike(a->wet_s, b->wet_s, WET_APART_S, WET_APART)) {
        return false;
    }
    if (plmi_same_diver(&a->row, &b->row)) {
        return isnan(apart_s) || fabs(apart_s) < CLOCKS_S;
    }
    return fabs(apart_s) < fmax(plmi_wet_length_s(a), plmi_wet_length_s(b));
}

/* One row's search; only its own other record is written. */
struct search {
    struct plmi_audited_dive *const *dives;
    size_t count;
};

/* The better record stands first: by completeness, then by place. */
static bool better(struct plmi_audited_dive *const *dives, size_t i, size_t k)
{
    double more = plmi_completeness_compare(&dives[i]->completeness, &dives[k]->completeness);
    return more > 0 || (!(more < 0) && i < k);
}

static void find_other_record(void *context, size_t k)
{
    const struct search *search = context;
    struct plmi_audited_dive *const *dives = search->dives;
    long best = -1;
    for (size_t i = 0; i < search->count; i++) {
        struct plm_alignment found;
        if (i == k || !better(dives, i, k) || !candidates(dives[i], dives[k])) {
            continue;
        }
        if (best >= 0 && !better(dives, i, (size_t)best)) {
            continue;
        }
        if (plmi_align_series(&found, &dives[i]->series, &dives[k]->series) && found.same_dive) {
            best = (long)i;
        }
    }
    dives[k]->row.other_record = best;
}

void plmi_pair_rows(struct plmi_audited_dive *const *dives, size_t count, size_t threads)
{
    struct search search = {dives, count};
    plmi_jobs_run(count, threads, find_other_record, &search);
}
