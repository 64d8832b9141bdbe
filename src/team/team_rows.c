/*
 * Dives that belong together: of different divers, at one time, to like depths.
 * SPDX-License-Identifier: MIT
 */
#include "team/grouping.h"

#include <math.h>
#include <stdlib.h>

#include "base/text.h"

/* Share of the shorter dive that both must be down, and how far depths may be apart. */
#define OVERLAP_FRAC  0.5
#define DEPTH_APART_M 10.0
#define DEPTH_APART   0.3

static bool together(const struct plmi_audited_dive *a, const struct plmi_audited_dive *b)
{
    double apart_s = plmi_wet_apart_s(a, b), a_s = plmi_wet_length_s(a), b_s = plmi_wet_length_s(b);
    double depth_m = fmax(a->row.max_depth_m, b->row.max_depth_m);
    if (isnan(apart_s) || plmi_same_diver(&a->row, &b->row) ||
        fabs(a->row.max_depth_m - b->row.max_depth_m) > fmax(DEPTH_APART_M, DEPTH_APART * depth_m)) {
        return false;
    }
    double common_s = fmin(a_s, apart_s + b_s) - fmax(0.0, apart_s);
    return common_s >= OVERLAP_FRAC * fmin(a_s, b_s);
}

static size_t root(const size_t *parent, size_t i)
{
    while (parent[i] != i) {
        i = parent[i];
    }
    return i;
}

/* The lower index stays the root, so that the order of joining does not matter. */
static void join(size_t *parent, size_t a, size_t b)
{
    a = root(parent, a);
    b = root(parent, b);
    parent[a > b ? a : b] = a > b ? b : a;
}

static double down_utc_s(const struct plmi_audited_dive *audited)
{
    const struct plm_stamp *start = &audited->row.start;
    return (double)plm_stamp_utc_ms(start) / 1000.0 + audited->before_s;
}

/* Numbers teams by who of them goes under water first; dives without a clock come last, in their order. */
static void number(struct plmi_audited_dive *const *dives, const size_t *parent, size_t count)
{
    int next = 1;
    for (;;) {
        size_t first = count;
        for (size_t i = 0; i < count; i++) {
            const struct plm_audit_row *row = &dives[i]->row;
            if (row->other_record >= 0 || row->team > 0) {
                continue;
            }
            if (first == count || (row->start.known && (!dives[first]->row.start.known ||
                                                        down_utc_s(dives[i]) < down_utc_s(dives[first])))) {
                first = i;
            }
        }
        if (first == count) {
            return;
        }
        for (size_t i = 0; i < count; i++) {
            if (dives[i]->row.other_record < 0 && root(parent, i) == root(parent, first)) {
                dives[i]->row.team = next;
            }
        }
        next++;
    }
}

bool plmi_team_rows(struct plmi_audited_dive *const *dives, size_t count)
{
    size_t *parent = calloc(count + 1, sizeof *parent);
    if (parent == NULL) {
        return false;
    }
    for (size_t i = 0; i < count; i++) {
        parent[i] = i;
    }
    for (size_t i = 0; i < count; i++) {
        for (size_t k = i + 1; k < count; k++) {
            if (dives[i]->row.other_record < 0 && dives[k]->row.other_record < 0 && together(dives[i], dives[k])) {
                join(parent, i, k);
            }
        }
    }
    number(dives, parent, count);
    for (size_t i = 0; i < count; i++) {
        if (dives[i]->row.other_record >= 0) {
            dives[i]->row.team = dives[dives[i]->row.other_record]->row.team;
        }
    }
    free(parent);
    return true;
}

static bool same_day(const struct plm_audit_row *a, const struct plm_audit_row *b)
{
    return a->date[0] && plmi_same_diver(a, b) && plmi_text_same(a->date, b->date);
}

void plmi_day_rows(struct plmi_audited_dive *const *dives, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        struct plm_audit_row *row = &dives[i]->row;
        row->otu_of_day = row->other_record < 0 || !row->date[0] ? row->otu : 0.0;
        for (size_t k = 0; k < count; k++) {
            if (k != i && dives[k]->row.other_record < 0 && same_day(row, &dives[k]->row)) {
                row->otu_of_day += dives[k]->row.otu;
            }
        }
    }
}
