/*
 * The floor's one road: every reviewer looks, then hold and cost are tried, then the findings are sorted and frozen.
 * SPDX-License-Identifier: MIT
 */
#include <plimsoll/review.h>

#include "base/report.h"
#include "review/findings.h"
#include "review/reviewer.h"

static void look_all(const struct plm_review_input *input, struct plmi_review_list *list)
{
    struct plmi_review_scene scene = plmi_review_scene_of(input);
    size_t count = 0;
    const struct plmi_reviewer *const *table = plmi_review_table(&count);
    for (size_t i = 0; i < count && !list->failed; i++)
        if (table[i]->look != NULL)
            table[i]->look(&scene, list);
}

enum plm_status plm_review(struct plm_findings **out, const struct plm_review_input *input, const struct plm_review_options *options,
                           const struct plm_diag_sink *sink)
{
    (void)options;
    struct plmi_review_list list;
    plmi_review_list_init(&list);
    look_all(input, &list);
    plmi_review_list_sort(&list);
    *out = plmi_review_list_finish(&list);
    if (*out != NULL)
        return PLM_STATUS_OK;
    struct plmi_report report;
    plmi_report_init(&report, sink, plm_dive_info_get(input->dive)->file);
    plmi_report_add(&report, PLM_LEVEL_ERROR, PLM_DIAG_MEMORY, 0, 0, "no memory for the findings");
    return PLM_STATUS_MEMORY;
}
