/*
 * The edited copies of a dive that costs were found with: each with just one stretch put right, and one with all.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_EDITED_H
#define PLM_EDITED_H

#include <plimsoll/review.h>

#ifdef __cplusplus
extern "C" {
#endif

struct plm_edited; /* opaque, immutable */

#define PLM_EDITED_ALL ((size_t)-1)

/* One copy. */
struct plm_edited_dive {
    size_t finding;              /* index in plm_findings_get, PLM_EDITED_ALL for the one with everything put right */
    const char *put_right;       /* in words */
    const struct plm_dive *dive; /* the edited dive */
};

/*
 * Makes the edited dives again, in the order of the findings that have a cost; the one with all put right last, where
 * there are two or more, what went into others counted.
 *   input, findings  as given to and gotten from plm_review
 * Returns: OK with *out (the caller frees), or an error that is reported.
 */
PLM_API enum plm_status plm_edited_make(struct plm_edited **out, const struct plm_review_input *input,
                                        const struct plm_findings *findings, const struct plm_diag_sink *sink);
/* All copies; *count can be 0. */
PLM_API const struct plm_edited_dive *plm_edited_get(const struct plm_edited *edited, size_t *count);
/* NULL is allowed. */
PLM_API void plm_edited_free(struct plm_edited *edited);

#ifdef __cplusplus
}
#endif

#endif
