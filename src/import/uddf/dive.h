/*
 * The dive around its samples. _open and _close return whether the element was one of its own.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_IMPORT_UDDF_DIVE_H
#define PLM_IMPORT_UDDF_DIVE_H

#include "import/uddf/state.h"

bool plmi_uddf_dive_open(struct plmi_reader *reader, enum plmi_uddf_element element, const char *const *attributes,
                         long line, long column);
bool plmi_uddf_dive_close(struct plmi_reader *reader, enum plmi_uddf_element element, const char *text, long line,
                          long column);
/* Gives up the dive that is being read. */
void plmi_uddf_dive_free(struct plmi_reader *reader);

#endif
