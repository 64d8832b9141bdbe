/*
 * The inside of an import that who reads logs shares with it.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_IMPORT_IMPORT_H
#define PLM_IMPORT_IMPORT_H

#include <plimsoll/import.h>

#include "base/diags.h"

/* Its diagnostics: what is reported on its dives folds and counts with what is reported while they are read. */
const struct plmi_diags *plmi_import_diags(const struct plm_import *import);

#endif
