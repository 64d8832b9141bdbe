/*
 * What a dive does not say and a convention fills in: reported once a card that might say it is laid.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_LOG_ASSUMED_H
#define PLM_LOG_ASSUMED_H

#include <plimsoll/dive_builder.h>

#include "base/diags.h"

/*
 * Takes a closed loop for a dive without a mode for which set points or cells are recorded, in one edited copy.
 *   dive  [in,out] replaced by its copy; as it was on an error
 * Returns: OK; INPUT, MEMORY reported.
 */
enum plm_status plmi_assumed_loop(struct plm_dive **dive, const struct plm_rules *rules,
                                  const struct plm_diag_sink *sink);
/* Whether a mode is taken for a dive without one although set points or loop oxygen are recorded. */
bool plmi_assumed_mode(const struct plm_dive *dive);
/* Warns of air taken for a missing gas, and of a mode taken for a dive that records set points or loop oxygen. */
void plmi_assumed_tell(const struct plmi_diags *diags, const struct plm_dive *dive);

#endif
