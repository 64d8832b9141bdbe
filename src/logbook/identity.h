/*
 * What the ledger has to know of a dive: its diver, and its time with its zone.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_LOGBOOK_IDENTITY_H
#define PLM_LOGBOOK_IDENTITY_H

#include "logbook/work.h"

/* When a dive was, by its start, which is known with its zone. */
struct plm_dive_span plmi_identity_span(const struct plm_dive *dive, const struct plm_rules *rules);
/*
 * Diver, wall clock and zone of a dive, as far as they are stated; what is missing is reported at level.
 *   stated     the diver, before what the dive says; NULL none
 *   diver  [out] borrowed: stated, or the dive's
 * Returns: false where something is missing.
 */
bool plmi_identity_find(const struct plm_logbook *logbook, const struct plm_dive *dive, const char *stated,
                        const struct plm_rules *rules, enum plm_level level, const char **diver,
                        struct plm_dive_span *span);

#endif
