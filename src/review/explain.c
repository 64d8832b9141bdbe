/*
 * What a kind of finding means, taken from its reviewer.
 * SPDX-License-Identifier: MIT
 */
#include <stddef.h>

#include "review/scene/reviewer.h"

const struct plm_explanation *plm_finding_explain(enum plm_finding_kind kind)
{
    size_t count = 0;
    const struct plmi_reviewer *const *table = plmi_review_table(&count);
    for (size_t i = 0; i < count; i++) {
        if (table[i]->kind == kind) {
            return table[i]->explanation;
        }
    }
    return NULL;
}
