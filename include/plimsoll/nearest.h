/*
 * The known word nearest in spelling to one that is not known, for messages.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_NEAREST_H
#define PLM_NEAREST_H

#include <stddef.h>

#include <plimsoll/api.h>

#ifdef __cplusplus
extern "C" {
#endif

/* A search: begun by plm_nearest_begin, then offered every known word. Words are borrowed. */
struct plm_nearest {
    const char *word;  /* the one that is not known                                         */
    const char *known; /* the nearest of those offered, the first of those alike; NULL none */
    size_t distance;   /* [bytes] to insert, drop or replace to make one of the other       */
};

/* A search that was offered nothing yet. */
PLM_API struct plm_nearest plm_nearest_begin(const char *word);
/* Offers a known word. */
PLM_API void plm_nearest_offer(struct plm_nearest *nearest, const char *known);

#ifdef __cplusplus
}
#endif

#endif
