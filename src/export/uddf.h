/*
 * The parts of a dive written as UDDF. For uddf*.c alone.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_EXPORT_UDDF_H
#define PLM_EXPORT_UDDF_H

#include "export/exporter.h"

/* <tag>text</tag>, blanks at the ends cut; nothing for NULL and "". */
void plmi_export_uddf_text(struct plmi_text *out, const char *tag, const char *text);
/* name="text" with a blank before it, as XML keeps it: on one line. */
void plmi_export_uddf_attribute(struct plmi_text *out, const char *name, const char *text);
/* <tag>number</tag> times 10^tens; nothing for NaN. */
void plmi_export_uddf_number(struct plmi_text *out, const char *tag, double value, int tens);
/* name="number" with a blank before it; nothing for NaN. */
void plmi_export_uddf_number_attribute(struct plmi_text *out, const char *name, double value);

/* The id by which a mix of the dive is referred to; defined at its first use. */
const char *plmi_export_uddf_mix(struct plm_export *export, const struct plm_dive_mix *mix);
/* An id that nothing else in the log has: the one stated where it can be one, else "KIND-n". */
const char *plmi_export_uddf_id(struct plm_export *export, const char *stated, const char *kind, size_t n);

/* What of an event fits into a waypoint is added to it; false where it does not fit as it is. texts: bytes of texts so
 * far. */
bool plmi_export_uddf_event(struct plm_export *export, struct plmi_text *out, const struct plm_event *event,
                            size_t *texts);
/* All waypoints of a dive or of a plan; events that fit into none go to aside. */
void plmi_export_uddf_waypoints(struct plm_export *export, struct plmi_text *out, const struct plm_dive *dive,
                                struct plmi_text *aside);
/* "closedcircuit" and so on. */
const char *plmi_export_uddf_mode(enum plm_mode mode);

#endif
