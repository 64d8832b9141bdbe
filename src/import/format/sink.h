/*
 * A sink that hands on what is reported on a dive, but for its notes.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_IMPORT_FORMAT_SINK_H
#define PLM_IMPORT_FORMAT_SINK_H

#include <plimsoll/diag.h>

/* to is borrowed. */
struct plm_diag_sink plmi_format_quiet_sink(const struct plm_diag_sink *to);

#endif
