/*
 * How complete a record is, and which of several is the most complete. Looks at what is there, judges nothing of the
 * dive.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_COMPLETENESS_H
#define PLM_COMPLETENESS_H

#include <stdbool.h>
#include <stddef.h>

#include <plimsoll/api.h>
#include <plimsoll/diag.h>
#include <plimsoll/dive.h>
#include <plimsoll/status.h>

#ifdef __cplusplus
extern "C" {
#endif

struct plm_completeness {
    double covered_s; /* recorded time without the gaps     */
    double step_s;    /* usual interval between samples     */
    size_t cells;     /* oxygen cells recorded              */
    bool gas;         /* a breathing gas is known           */
};

/* The worth of a record. Returns: OK, or MEMORY reported. */
PLM_API enum plm_status plm_completeness_find(struct plm_completeness *out, const struct plm_dive *dive,
                                              const struct plm_diag_sink *sink);

/*
 * The most complete of several: of those that are longest (to two minutes) one whose gas is known, then one with most
 * cells, then the finest sampling (to half a second); of those alike the first. Apart from that the order does not
 * matter.
 * Returns: its index; count > 0.
 */
PLM_API size_t plm_completeness_best(const struct plm_completeness *list, size_t count);

#ifdef __cplusplus
}
#endif

#endif
