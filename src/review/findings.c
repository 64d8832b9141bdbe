/*
 * The frozen findings and the words for kinds, severities and holds.
 * SPDX-License-Identifier: MIT
 */
#include "review/findings.h"

#include <math.h>
#include <stdlib.h>

#include "review/scene/made.h"

static const struct {
    const char *word, *unit, *meaning;
} kinds[PLM_FINDING_COUNT] = {
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
    findings->all_put_right = (struct plm_cost){.known = false,
                                                .decompression_min = NAN,
                                                .surfacing_gradient_points = NAN,
                                                .peak_gradient_points = NAN,
                                                .cns_points = NAN};
    plmi_review_list_init(list);
    return findings;
}

static void copy(struct plmi_review_list *to, const struct plm_finding *items, size_t count)
{
    for (size_t i = 0; i < count && !to->failed; i++) {
        struct plm_finding *finding = plmi_review_list_add(to, items[i].kind);
        if (finding == NULL) {
            return;
        }
        *finding = items[i];
        finding->text = plmi_review_sentence(to, "{s}", items[i].text);
        if (items[i].cost.put_right != NULL) {
            finding->cost.put_right = plmi_review_sentence(to, "{s}", items[i].cost.put_right);
        }
    }
}

struct plm_findings *plmi_review_findings_with(const struct plm_findings *findings, const struct plmi_review_list *list)
{
    struct plmi_review_list both;
    plmi_review_list_init(&both);
    copy(&both, findings->list.items, findings->list.count);
    copy(&both, list->items, list->count);
    plmi_review_list_sort(&both);
    const char *put_right = findings->all_put_right.put_right;
    if (put_right != NULL) {
        put_right = plmi_review_sentence(&both, "{s}", put_right);
    }
    struct plm_findings *out = plmi_review_list_finish(&both);
    if (out != NULL) {
        out->all_put_right = findings->all_put_right;
        out->all_put_right.put_right = put_right;
    }
    return out;
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

void plm_findings_free(struct plm_findings *findings)
{
    if (findings == NULL) {
        return;
    }
    plmi_review_comparison_free(findings->plan);
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
