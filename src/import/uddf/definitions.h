/*
 * Mixes, tanks, cells, sites and divers that dives refer to. _open and _close return whether the element was one of
 * theirs.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_IMPORT_UDDF_DEFINITIONS_H
#define PLM_IMPORT_UDDF_DEFINITIONS_H

#include "import/uddf/state.h"

bool plmi_uddf_definitions_open(struct plmi_reader *reader, enum plmi_uddf_element element,
                                const char *const *attributes, long line);
bool plmi_uddf_definitions_close(struct plmi_reader *reader, enum plmi_uddf_element element, const char *text,
                                 long line, long column);
void plmi_uddf_definitions_free(struct plmi_reader *reader);

/* Where the file defines no mix, those of the card stand for them. To be asked when all definitions are read. */
void plmi_uddf_definitions_from_card(struct plmi_reader *reader);

#endif
