/*
 * What waypoints record besides the profile.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_IMPORT_UDDF_EVENTS_H
#define PLM_IMPORT_UDDF_EVENTS_H

#include "import/uddf/state.h"

/* Returns: whether the element was an event. */
bool plmi_uddf_event_close(struct plmi_reader *reader, enum plmi_uddf_element element, const char *text, long line,
                           long column);
/* A decostop, all of it in its attributes. */
void plmi_uddf_event_stop(struct plmi_reader *reader, const char *const *attributes, long line, long column);
/* Adds an event to the waypoint; text is copied. */
void plmi_uddf_event_add(struct plmi_reader *reader, enum plm_event_kind kind, double value, double value2,
                         const char *text);

#endif
