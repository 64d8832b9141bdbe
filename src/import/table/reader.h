/*
 * Tables of text as a format.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_IMPORT_TABLE_READER_H
#define PLM_IMPORT_TABLE_READER_H

#include "import/format/format.h"

extern const struct plmi_format plmi_format_csv;

#endif
