/*
 * Waypoints of samples and of plans. _open and _close return whether the element was one of theirs.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_IMPORT_UDDF_WAYPOINT_H
#define PLM_IMPORT_UDDF_WAYPOINT_H

#include "import/uddf/state.h"

bool plmi_uddf_waypoint_open(struct plmi_reader *reader, enum plmi_uddf_element element, const char *const *attributes,
                             long line, long column);
bool plmi_uddf_waypoint_close(struct plmi_reader *reader, enum plmi_uddf_element element, const char *text, long line,
                              long column);

#endif
