/*
 * The table of formats.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_IMPORT_FORMATS_H
#define PLM_IMPORT_FORMATS_H

#include "import/format/format.h"

const struct plmi_format *const *plmi_formats(size_t *count);

#endif
