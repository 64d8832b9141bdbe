/*
 * The frozen findings and the words for kinds, severities and holds.
 * SPDX-License-Identifier: MIT
 */
#include "review/findings.h"

#include <math.h>
#include <stdlib.h>

static const struct { const char *word, *unit, *meaning; } kinds[PLM_FINDING_COUNT] = {
#define PLM_FINDING(name, word, unit, meaning) [PLM_FINDING_##name] = {word, unit, meaning},
#include <plimsoll/finding_kinds.def>
#undef PLM_FINDING
};
static const char *const severities[] = {"note", "caution", "serious"};
static const char *const holds[] = {"untried", "firm", "marginal"};

struct plm_findings *plmi_review_list_finish(struct plmi_review_list *list)
{
    struct plm_findings *findings = list->failed ? NULL : calloc(1, sizeof *findings);
    if (findings == NULL) {
        plmi_review_list_free(list);
        return NULL;
    }
    findings->list = *list;
    findings->all_put_right = (struct plm_cost){.known = false, .decompression_min = NAN, .surfacing_gradient_points = NAN,
                                                .peak_gradient_points = NAN, .cns_points = NAN};
    plmi_review_list_init(list);
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

void plm_findings_free(struct plm_findings *findings)
{
    if (findings == NULL)
        return;
    plmi_review_list_free(&findings->list);
    free(findings);
}

const char *plm_finding_kind_text(enum plm_finding_kind kind)
{
    return (int)kind >= 0 && kind < PLM_FINDING_COUNT ? kinds[kind].word : "";
}

const char *plm_finding_kind_unit(enum plm_finding_kind kind)
{
    return (int)kind >= 0 && kind < PLM_FINDING_COUNT ? kinds[kind].unit : "";
}

const char *plm_finding_kind_meaning(enum plm_finding_kind kind)
{
    return (int)kind >= 0 && kind < PLM_FINDING_COUNT ? kinds[kind].meaning : "";
}

const char *plm_severity_text(enum plm_severity severity)
{
    return (int)severity >= 0 && severity <= PLM_SEVERITY_SERIOUS ? severities[severity] : "";
}

const char *plm_hold_text(enum plm_hold hold)
{
    return (int)hold >= 0 && hold <= PLM_HOLD_MARGINAL ? holds[hold] : "";
}
