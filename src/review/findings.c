/*
 * The frozen findings and the words for severities and holds.
 * SPDX-License-Identifier: MIT
 */
#include "review/findings.h"

#include <math.h>
#include <stdlib.h>

static const char *const severities[] = {"note", "caution", "serious"};
static const char *const holds[] = {"untried", "firm", "marginal"};

struct plm_findings *plmi_finding_list_finish(struct plm_finding_list *list)
{
    struct plm_findings *findings = list->failed ? NULL : calloc(1, sizeof *findings);
    if (findings == NULL) {
        plmi_finding_list_free(list);
        return NULL;
    }
    findings->list = *list;
    findings->all_put_right = (struct plm_cost){.known = false,
                                                .decompression_min = NAN,
                                                .surfacing_gradient_points = NAN,
                                                .peak_gradient_points = NAN,
                                                .cns_points = NAN};
    plmi_finding_list_init(list);
    return findings;
}

const struct plm_finding *plm_findings_get(const struct plm_findings *findings, size_t *count)
{
    *count = findings->list.count;
    return findings->list.items;
}

const struct plm_cost *plm_findings_all_put_right(const struct plm_findings *findings)
{
    return &findings->all_put_right;
}

const struct plm_plan_comparison *plm_findings_plan(const struct plm_findings *findings)
{
    return findings->plan;
}

const struct plm_cell_figures *plm_findings_cells(const struct plm_findings *findings, size_t *count)
{
    *count = findings->cell_count;
    return findings->cells;
}

void plm_findings_free(struct plm_findings *findings)
{
    if (findings == NULL) {
        return;
    }
    plmi_review_comparison_free(findings->plan);
    plmi_finding_list_free(&findings->list);
    free(findings);
}

const char *plm_severity_text(enum plm_severity severity)
{
    return (int)severity >= 0 && severity <= PLM_SEVERITY_SERIOUS ? severities[severity] : "";
}

const char *plm_hold_text(enum plm_hold hold)
{
    return (int)hold >= 0 && hold <= PLM_HOLD_MARGINAL ? holds[hold] : "";
}
