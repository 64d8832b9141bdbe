/*
 * What a dive does not say and a convention fills in: told where no card will say it.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_IMPORT_FORMAT_ASSUMED_H
#define PLM_IMPORT_FORMAT_ASSUMED_H

#include <plimsoll/dive.h>

#include "base/diags.h"

/* Warns of air taken for a missing gas, and of open circuit taken although set points or loop oxygen are recorded. */
void plmi_assumed_tell(struct plmi_diags *diags, const struct plm_dive *dive);

#endif
