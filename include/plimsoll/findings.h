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

enum plm_finding_kind {
#define PLM_FINDING(name, word, unit, meaning) PLM_FINDING_##name,
#include <plimsoll/finding_kinds.def>
#undef PLM_FINDING
    PLM_FINDING_COUNT
};

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
    enum plm_finding_kind kind;
    enum plm_severity severity;
    double from_s, to_s, from_depth_m, to_depth_m;
    double value, limit; /* NaN where there is none */
    const char *unit;    /* static */
    size_t first_point, last_point;
    uint32_t first_line, last_line;
    const char *text; /* one sentence, owned by the findings */
    enum plm_hold hold;
    double value_low, value_high; /* over the recorder's tolerance; NaN untried */
    struct plm_cost cost;
};

struct plm_findings; /* opaque, immutable */

/* All findings, worst first; *count can be 0. */
PLM_API const struct plm_finding *plm_findings_get(const struct plm_findings *findings, size_t *count);
/* With everything put right at once; known = false where nothing was. */
PLM_API const struct plm_cost *plm_findings_all_put_right(const struct plm_findings *findings);
/* NULL is allowed. */
PLM_API void plm_findings_free(struct plm_findings *findings);

/* The kind as a short kebab word, stable; static. */
PLM_API const char *plm_finding_kind_text(enum plm_finding_kind kind);
/* The unit of value and limit for the kind, "" where there is none; static. */
PLM_API const char *plm_finding_kind_unit(enum plm_finding_kind kind);
/* One sentence on the kind; static. */
PLM_API const char *plm_finding_kind_meaning(enum plm_finding_kind kind);
/* "note", "caution", "serious". */
PLM_API const char *plm_severity_text(enum plm_severity severity);
/* "untried", "firm", "marginal". */
PLM_API const char *plm_hold_text(enum plm_hold hold);

#ifdef __cplusplus
}
#endif

#endif
