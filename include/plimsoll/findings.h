/*
 * What the reviewers found: a frozen list, worst first.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_FINDINGS_H
#define PLM_FINDINGS_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include <plimsoll/api.h>

#ifdef __cplusplus
extern "C" {
#endif

/* The kinds of the library; as words (plm_finding_kind_text) they are written with hyphens, "ceiling-exceeded". */
enum plm_finding_kind {
    PLM_FINDING_CEILING_EXCEEDED,
    PLM_FINDING_M_VALUE_EXCEEDED,
    PLM_FINDING_STOP_CUT_SHORT,
    PLM_FINDING_SURFACED_OWING_STOPS,
    PLM_FINDING_ASCENT_RATE,
    PLM_FINDING_OXYGEN_HIGH,
    PLM_FINDING_OXYGEN_LOW,
    PLM_FINDING_CNS_SINGLE,
    PLM_FINDING_CNS_DAY,
    PLM_FINDING_OTU_DAY,
    PLM_FINDING_OTU_DAYS,
    PLM_FINDING_GAS_DENSITY,
    PLM_FINDING_NARCOTIC_DEPTH,
    PLM_FINDING_COUNTERDIFFUSION,
    PLM_FINDING_MIX_TOO_DEEP,
    PLM_FINDING_SETPOINT_NOT_HELD,
    PLM_FINDING_CELLS_DISAGREE,
    PLM_FINDING_PLAN_DEEPER,
    PLM_FINDING_PLAN_LONGER,
    PLM_FINDING_PLAN_RATE,
    PLM_FINDING_PLAN_MIX,
    PLM_FINDING_PLAN_SETPOINT,
    PLM_FINDING_PLAN_STOP,
    PLM_FINDING_RECORDERS_DISAGREE,
    PLM_FINDING_LOG_GAP,
    PLM_FINDING_CLOCK_DOUBT,
    PLM_FINDING_ESOT_DAY,
    PLM_FINDING_LEFT_LOOP,
    PLM_FINDING_DESCENDED_AGAIN,
    PLM_FINDING_COUNT /* and above: kinds of the caller's reviewers, in their order */
};

struct plm_reviewer; /* review.h */

enum plm_severity { PLM_SEVERITY_NOTE, PLM_SEVERITY_CAUTION, PLM_SEVERITY_SERIOUS };
enum plm_hold { PLM_HOLD_UNTRIED, PLM_HOLD_FIRM, PLM_HOLD_MARGINAL };

/* What a stretch cost: the dive as recorded less the same dive with the stretch put right; positive: the dive cost
 * more. NaN unknown. */
struct plm_cost {
    bool known;
    double decompression_min, surfacing_gradient_points, peak_gradient_points, cns_points;
    const char *put_right; /* in words; owned by the findings */
};

struct plm_finding {
    enum plm_finding_kind kind;          /* PLM_FINDING_COUNT + i: of reviewers[i] of plm_review_options */
    const struct plm_reviewer *reviewer; /* its word, meaning and explanation; static, or the caller's */
    enum plm_severity severity;
    double from_s, to_s, from_depth_m, to_depth_m;
    double stop_m;       /* [m] the stop that the finding is of: of another stop it is another finding; NaN none */
    double value, limit; /* NaN where there is none */
    /* how far it came to the bound from which its kind is serious: 1 at it; 0 for kinds that have none */
    double serious_share;
    int times;     /* how often it happened within from_s..to_s, at least 1 */
    double held_s; /* [s] for how long in all; NaN where only the moment counts */
    /* standard error of the value; the finding holds firm beyond two of it. NaN: it is tried over the recorder's
     * tolerance */
    double value_error;
    const char *unit; /* its reviewer's */
    bool at_least;    /* value is the least that it can be */
    size_t first_point, last_point;
    uint32_t first_line, last_line;
    const char *text; /* one sentence, owned by the findings */
    enum plm_hold hold;
    double value_low, value_high; /* over the recorder's tolerance, or two standard errors; NaN untried */
    bool cells_differ;            /* marginal, as it does not stand by each oxygen cell alone */
    struct plm_cost cost;
};

struct plm_findings; /* opaque, immutable */

/* All findings, worst first; *count can be 0. */
PLM_API const struct plm_finding *plm_findings_get(const struct plm_findings *findings, size_t *count);
/* With everything put right at once; known = false where nothing was. */
PLM_API const struct plm_cost *plm_findings_all_put_right(const struct plm_findings *findings);
/* What a dive comes to by the oxygen of one cell of its loop alone. */
struct plm_cell_figures {
    int cell;                      /* [from 1] */
    bool still;                    /* it did not move with the others */
    double surfacing_gradient_pct; /* as in struct plm_trace_summary */
    double cns_pct, cns_beyond_min;
    double owed_min; /* [min] stops required on leaving the bottom; INFINITY: never clears */
};
/* One for each cell that read anything where the cells disagree and hold was asked for; *count is 0 else. */
PLM_API const struct plm_cell_figures *plm_findings_cells(const struct plm_findings *findings, size_t *count);
/* NULL is allowed. */
PLM_API void plm_findings_free(struct plm_findings *findings);

/* A kind of the library as a short kebab word, stable; static. "" for others: ask the finding's reviewer. */
PLM_API const char *plm_finding_kind_text(enum plm_finding_kind kind);
/* The unit of value and limit for such a kind, "" where there is none; static. */
PLM_API const char *plm_finding_kind_unit(enum plm_finding_kind kind);
/* A few words on such a kind; static. */
PLM_API const char *plm_finding_kind_meaning(enum plm_finding_kind kind);
/* "note", "caution", "serious". */
PLM_API const char *plm_severity_text(enum plm_severity severity);
/* "untried", "firm", "marginal". */
PLM_API const char *plm_hold_text(enum plm_hold hold);

#ifdef __cplusplus
}
#endif

#endif
