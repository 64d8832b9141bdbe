/*
 * The frozen findings from inside: made by the floor review alone.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REVIEW_FINDINGS_H
#define PLM_REVIEW_FINDINGS_H

#include "review/plan/plan.h"

struct plm_findings {
    struct plmi_review_list list;
    struct plm_cost all_put_right;
    struct plm_plan_comparison *plan; /* NULL: none */
};

#endif
