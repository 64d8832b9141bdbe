/*
 * What our own exports keep in applicationdata.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_IMPORT_UDDF_OWN_H
#define PLM_IMPORT_UDDF_OWN_H

#include "import/uddf/state.h"

/* Takes an element of the dive that is being read; others are passed over. */
void plmi_uddf_own_open(struct plmi_reader *reader, enum plmi_uddf_element element, const char *const *attributes,
                        long line, long column);
/* Whether a generator of this name is ours. */
bool plmi_uddf_own_generator(const char *name);

#endif
