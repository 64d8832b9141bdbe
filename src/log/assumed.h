/*
 * What a dive does not say and a convention fills in: reported once a card that might say it is laid.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_LOG_ASSUMED_H
#define PLM_LOG_ASSUMED_H

#include <plimsoll/dive.h>

#include "base/diags.h"

/* Whether open circuit is taken for a dive without a mode although set points or loop oxygen are recorded. */
bool plmi_assumed_mode(const struct plm_dive *dive);
/* Warns of air taken for a missing gas, and of open circuit taken although set points or loop oxygen are recorded. */
void plmi_assumed_tell(const struct plmi_diags *diags, const struct plm_dive *dive);

#endif
