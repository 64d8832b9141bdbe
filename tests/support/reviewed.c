/*
 * A dive with its trace and findings, for tests of the reviewers.
 * Must not judge.
 * SPDX-License-Identifier: MIT
 */
#include "support/reviewed.h"

#include <math.h>
#include <stdio.h>

void reviewed_dive(struct reviewed *reviewed, struct plm_dive *dive, const struct plm_rules *rules,
                   const struct review_wish *wish)
{
    *reviewed = (struct reviewed){.rules = *rules, .dive = dive};
    reviewed->options = plm_replay_options_default(&reviewed->rules);
    reviewed->options.start = wish->start;
    reviewed->options.planned_max_m = wish->plan != NULL ? plm_dive_max_depth_m(wish->plan) : 0;
    ck_assert_int_eq(plm_replay(&reviewed->trace, reviewed->dive, &reviewed->options, NULL), PLM_STATUS_OK);
    reviewed->input = (struct plm_review_input){
        .dive = reviewed->dive, .trace = reviewed->trace, .plan = wish->plan, .replay = &reviewed->options};
    struct plm_review_options options = {.hold = wish->hold, .cost = wish->cost};
    ck_assert_int_eq(plm_review(&reviewed->findings, &reviewed->input, &options, NULL), PLM_STATUS_OK);
}

void reviewed_make(struct reviewed *reviewed, struct made_dive *made, const struct review_wish *wish)
{
    struct plm_rules rules = made->rules;
    reviewed_dive(reviewed, made_finish(made), &rules, wish);
}

void reviewed_free(struct reviewed *reviewed)
{
    plm_findings_free(reviewed->findings);
    plm_trace_free(reviewed->trace);
    plm_dive_free(reviewed->dive);
}

size_t reviewed_count(const struct reviewed *reviewed, enum plm_finding_kind kind)
{
    size_t count = 0, found = 0;
    const struct plm_finding *findings = plm_findings_get(reviewed->findings, &count);
    for (size_t i = 0; i < count; i++) {
        found += findings[i].kind == kind;
    }
    return found;
}

size_t reviewed_count_plan(const struct reviewed *reviewed)
{
    size_t found = 0;
    for (int kind = PLM_FINDING_PLAN_DEEPER; kind <= PLM_FINDING_PLAN_STOP; kind++) {
        found += reviewed_count(reviewed, (enum plm_finding_kind)kind);
    }
    return found;
}

const struct plm_finding *reviewed_first(const struct reviewed *reviewed, enum plm_finding_kind kind)
{
    size_t count = 0;
    const struct plm_finding *findings = plm_findings_get(reviewed->findings, &count);
    for (size_t i = 0; i < count; i++) {
        if (findings[i].kind == kind) {
            return &findings[i];
        }
    }
    reviewed_print(reviewed);
    ck_abort_msg("no finding %s", plm_finding_kind_text(kind));
    return NULL;
}

void reviewed_print(const struct reviewed *reviewed)
{
    size_t count = 0;
    const struct plm_finding *findings = plm_findings_get(reviewed->findings, &count);
    for (size_t i = 0; i < count; i++) {
        const struct plm_finding *f = &findings[i];
        fprintf(stderr, "%s %s %g..%g s value %g limit %g %s [%g %g] cost %d %g min %g %g %g: %s | %s\n",
                plm_severity_text(f->severity), plm_finding_kind_text(f->kind), f->from_s, f->to_s, f->value, f->limit,
                plm_hold_text(f->hold), f->value_low, f->value_high, f->cost.known, f->cost.decompression_min,
                f->cost.surfacing_gradient_points, f->cost.peak_gradient_points, f->cost.cns_points, f->text,
                f->cost.put_right ? f->cost.put_right : "");
    }
}

void leg(struct made_dive *made, double *time_s, double *depth_m, double to_m, double dt_s, double step_s)
{
    double from_s = *time_s, from_m = *depth_m;
    for (long i = 1; (double)i * step_s < dt_s - 1e-9; i++) {
        made_sample(made, from_s + (double)i * step_s, from_m + (to_m - from_m) * (double)i * step_s / dt_s);
    }
    made_sample(made, from_s + dt_s, to_m);
    *time_s = from_s + dt_s;
    *depth_m = to_m;
}
