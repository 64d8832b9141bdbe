/*
 * Elements of waypoints that are recorded and not read.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_IMPORT_UDDF_UNREAD_H
#define PLM_IMPORT_UDDF_UNREAD_H

#include "import/uddf/state.h"

/* Counts one. */
void plmi_uddf_unread_count(struct plmi_reader *reader, const char *name, long line);
/* Tells them, with how often they were met, and forgets them. */
void plmi_uddf_unread_tell(struct plmi_reader *reader);

#endif
