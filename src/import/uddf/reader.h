/*
 * UDDF as a format.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_IMPORT_UDDF_READER_H
#define PLM_IMPORT_UDDF_READER_H

#include "import/format/format.h"

extern const struct plmi_format plmi_format_uddf;

#endif
