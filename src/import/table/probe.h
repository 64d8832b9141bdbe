/*
 * Whether first bytes are a table of text.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_IMPORT_TABLE_PROBE_H
#define PLM_IMPORT_TABLE_PROBE_H

#include <stddef.h>

/* Bits of evidence: words for columns over cells count most, even rows of separated cells some. */
int plmi_table_probe(const unsigned char *bytes, size_t n);

#endif
