/*
 * One reviewer: a const row of the table in reviewers.c; looks at one kind of trouble and adds findings.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REVIEW_REVIEWER_H
#define PLM_REVIEW_REVIEWER_H

#include <plimsoll/review.h>

#include "base/text.h"

struct plmi_finding_list;   /* grows; review/list.h */

struct plmi_reviewer {
    enum plm_finding_kind kind;
    /* Looks, adds to list. Returns: OK or MEMORY. Must not replay: hold and cost are the caller's. */
    enum plm_status (*look)(const struct plm_review_input *input, struct plmi_finding_list *list);
    const struct plm_explanation *explanation;
};

const struct plmi_reviewer *const *plmi_reviewers(size_t *count);

#endif
