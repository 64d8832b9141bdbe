/*
 * Stays at the surface of one record that look like dives: a recorder that was rinsed, or a head that went under.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_IMPORT_TABLE_BOB_H
#define PLM_IMPORT_TABLE_BOB_H

#include <plimsoll/dive.h>
#include <plimsoll/rules.h>

#include "base/diags.h"

/* Whether a dive is shallower than rules->bob_max_m and shorter than rules->bob_max_min. */
bool plmi_bob_is(const struct plm_dive *dive, const struct plm_rules *rules);
/* Takes such a dive: reports that it is none, and frees it. */
void plmi_bob_drop(struct plm_dive *dive, const struct plm_rules *rules, struct plmi_diags *diags);

#endif
