/*
 * The parts of a dive written as a table. For csv*.c alone.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_EXPORT_CSV_H
#define PLM_EXPORT_CSV_H

#include "export/exporter.h"

/* Events of one moment in one cell: kind, value, second value, text in quotes; "; " between events. */
void plmi_export_csv_events(struct plmi_text *out, const struct plm_event *events, size_t count);

#endif
