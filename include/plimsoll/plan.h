/*
 * A dive held against its plan: a table planned / done / difference and a sentence. Made by plm_review, owned by its
 * findings.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_PLAN_H
#define PLM_PLAN_H

#include <plimsoll/findings.h>

#ifdef __cplusplus
extern "C" {
#endif

struct plm_plan_comparison; /* opaque, immutable */

/* One row. Numbers are NaN where there is nothing to tell. */
struct plm_plan_row {
    /* "greatest depth", "stop at 9 m", "ascent from 110 m to 57 m", "set point 1.30 from", ... */
    const char *what;
    double planned, done, difference;       /* difference: done less planned */
    const char *unit;                       /* "m", "min", "m/min", "bar", "%", "OTU", "g/L"; "" for words */
    const char *planned_words, *done_words; /* instead of numbers, as "18/45"; else NULL */
};

/* The comparison kept with findings; NULL where there was no plan. */
PLM_API const struct plm_plan_comparison *plm_findings_plan(const struct plm_findings *findings);
/* All rows, in the order in which they are shown. */
PLM_API const struct plm_plan_row *plm_plan_rows(const struct plm_plan_comparison *comparison, size_t *count);
/* One sentence. */
PLM_API const char *plm_plan_verdict(const struct plm_plan_comparison *comparison);
/* What was taken for granted, as "the plan names no ascent: its schedule was computed by the rules in force"; "" where
 * nothing was. */
PLM_API const char *plm_plan_assumed(const struct plm_plan_comparison *comparison);
/* The plan as it was compared, with a computed ascent where it named none; its samples on the plan's own runtime. */
PLM_API const struct plm_dive *plm_plan_dive(const struct plm_plan_comparison *comparison);
/* [s] to be added to the plan's runtime to come to the dive's: the starts of descent lie upon each other. */
PLM_API double plm_plan_shift_s(const struct plm_plan_comparison *comparison);

#ifdef __cplusplus
}
#endif

#endif
