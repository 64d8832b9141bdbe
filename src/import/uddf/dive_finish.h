/*
 * The end of a dive.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_IMPORT_UDDF_DIVE_FINISH_H
#define PLM_IMPORT_UDDF_DIVE_FINISH_H

#include "import/uddf/state.h"

/* Builds the dive that is being read, with its plan, and puts it into the queue; what fails is reported. */
void plmi_uddf_dive_finish(struct plmi_reader *reader);

#endif
