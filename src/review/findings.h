/*
 * The frozen findings from inside: made by the floor review alone.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REVIEW_FINDINGS_H
#define PLM_REVIEW_FINDINGS_H

#include "review/plan/plan.h"

struct plm_findings {
    struct plm_finding_list list;
    struct plm_cost all_put_right;
    struct plm_plan_comparison *plan; /* NULL: none */
    struct plm_cell_figures cells[PLM_CELLS];
    size_t cell_count;
};

/* The findings as the frozen value; takes the list over in any case. NULL without memory. */
struct plm_findings *plmi_finding_list_finish(struct plm_finding_list *list);

#endif
