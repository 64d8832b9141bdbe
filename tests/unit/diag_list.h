/*
 * For tests: what was reported, as written lines, in order.
 * Must not judge: the tests do.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_UNIT_DIAG_LIST_H
#define PLM_UNIT_DIAG_LIST_H

#include <plimsoll/diag.h>
#include <string.h>

struct diag_list {
    int count;
    char lines[64][256];
};

static inline void diag_list_add(void *context, const struct plm_diag *diag)
{
    struct diag_list *list = context;
    if (list->count < 64) {
        (void)plm_diag_format(diag, list->lines[list->count], sizeof list->lines[0]);
    }
    list->count++;
}

static inline struct plm_diag_sink diag_list_sink(struct diag_list *list)
{
    list->count = 0;
    return (struct plm_diag_sink){diag_list_add, list};
}

/* Whether a line holds all of it. */
static inline int diag_list_has(const struct diag_list *list, const char *part)
{
    for (int i = 0; i < list->count && i < 64; i++) {
        if (strstr(list->lines[i], part) != NULL) {
            return 1;
        }
    }
    return 0;
}

#endif
