/*
 * The floor's one road: every reviewer looks, costs are tried, findings of one event are joined, their hold is tried;
 * then they are sorted and frozen.
 * SPDX-License-Identifier: MIT
 */
#include <plimsoll/review.h>

#include <string.h>

#include "base/diags.h"
#include "review/cost.h"
#include "review/each_cell.h"
#include "review/events.h"
#include "review/findings.h"
#include "review/hold.h"
#include "review/look.h"

/* One review in the making. */
struct work {
    struct plm_review_scene scene;
    struct plm_finding_list list;
    struct plm_review_plan plan;
    struct plm_cost all;
    struct plmi_each_cell cells;
    struct plmi_diags diags;
};

/* A plan that cannot be compared is reported and left out. */
static enum plm_status lay_plan(struct work *work)
{
    if (work->scene.input->plan == NULL) {
        return PLM_STATUS_OK;
    }
    enum plm_status status = plmi_review_plan_make(&work->plan, &work->scene);
    if (status == PLM_STATUS_OK) {
        plmi_review_plan_lay(&work->scene, &work->plan);
    } else if (status != PLM_STATUS_MEMORY) {
        plmi_diags_add(&work->diags, PLM_LEVEL_WARNING, PLM_DIAG_PLAN, 0, 0,
                       "the plan cannot be replayed or never clears its stops; not compared");
    }
    return status == PLM_STATUS_MEMORY ? status : PLM_STATUS_OK;
}

static enum plm_status look(struct work *work, const struct plm_review_options *options)
{
    enum plm_status status = plmi_review_options_check(options, &work->diags);
    if (status == PLM_STATUS_OK) {
        status = lay_plan(work);
    }
    if (status == PLM_STATUS_OK) {
        status = plmi_review_look_all(&work->scene, options, &work->list);
    }
    plmi_finding_list_sort(&work->list); /* the worst are costed first */
    if (status == PLM_STATUS_OK && (options->cost || options->cost_for_severity)) {
        status = plmi_review_cost(&work->scene, &work->list, !options->cost, &work->all);
    }
    if (status == PLM_STATUS_OK) {
        plmi_review_events_join(&work->scene, &work->list);
    }
    if (status == PLM_STATUS_OK && options->hold) {
        status = plmi_review_hold(&work->scene, options, &work->list);
    }
    if (status == PLM_STATUS_OK && options->hold) {
        status = plmi_review_each_cell(&work->cells, &work->scene, options, &work->list);
    }
    plmi_finding_list_sort(&work->list);
    return work->list.failed ? PLM_STATUS_MEMORY : status;
}

/* The findings own what the work made. */
static struct plm_findings *freeze(struct work *work)
{
    struct plm_findings *findings = plmi_finding_list_finish(&work->list);
    if (findings == NULL) {
        return NULL;
    }
    if (work->all.known) {
        findings->all_put_right = work->all;
    }
    findings->cell_count = work->cells.count;
    memcpy(findings->cells, work->cells.items, sizeof findings->cells);
    if (work->scene.plan == NULL) {
        return findings;
    }
    findings->plan = plmi_review_plan_compare(&work->plan, &work->scene);
    if (findings->plan != NULL) {
        return findings;
    }
    plm_findings_free(findings);
    return NULL;
}

/* What kept the findings from being made; checks of the options have reported theirs. */
static void failure_tell(struct work *work, enum plm_status status)
{
    if (status == PLM_STATUS_MEMORY) {
        (void)plmi_diags_no_memory(&work->diags, 0, "for the findings");
    } else if (work->list.misused != NULL) {
        plmi_diags_add(
            &work->diags, PLM_LEVEL_ERROR, PLM_DIAG_USAGE, 0, 0,
            "the caller's reviewer of \"%s\" added what cannot be a finding: no text, or a severity, a time or "
            "a point out of range; the review is given up",
            work->list.misused->kind);
    } else if (status != PLM_STATUS_ARGUMENT) {
        plmi_diags_add(&work->diags, PLM_LEVEL_ERROR, PLM_DIAG_LIMIT, 0, 0,
                       "the dive cannot be replayed over the tolerance of its recorder");
    }
}

enum plm_status plm_review(struct plm_findings **out, const struct plm_review_input *input,
                           const struct plm_review_options *options, const struct plm_diag_sink *sink)
{
    struct work work = {.scene = plmi_review_scene_of(input)};
    plmi_finding_list_init(&work.list);
    plmi_diags_init(&work.diags, sink, plm_dive_info_get(input->dive)->file);
    *out = NULL;
    enum plm_status status = look(&work, options);
    if (status == PLM_STATUS_OK) {
        *out = freeze(&work);
        status = *out != NULL ? PLM_STATUS_OK : PLM_STATUS_MEMORY;
    }
    if (status != PLM_STATUS_OK) {
        failure_tell(&work, status);
    }
    plmi_finding_list_free(&work.list);
    plmi_review_plan_free(&work.plan);
    return status;
}
