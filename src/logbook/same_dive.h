/*
 * Which stored dive a record is of.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_LOGBOOK_SAME_DIVE_H
#define PLM_LOGBOOK_SAME_DIVE_H

#include "logbook/work.h"

/*
 * The stored dive that dive is a record of.
 *   wanted       its diver and span
 *   exposure     [out] 0: none
 *   down_utc_ms  [out] when the stored one goes under water; as it was where there is none
 *   addition     [in,out] name is told from, other is filled
 * Returns: OK; INPUT (reported): two dives that cannot be one person's; IO, MEMORY reported.
 */
enum plm_status plmi_same_dive_find(struct plm_logbook *logbook, const struct plm_dive *dive,
                                    const struct plm_exposure *wanted, int64_t *exposure, int64_t *down_utc_ms,
                                    struct plm_logbook_addition *addition);

#endif
