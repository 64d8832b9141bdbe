/*
 * Sinks that hand the diagnostics of a dive on to those of its file, which are folded.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_IMPORT_FORMAT_SINK_H
#define PLM_IMPORT_FORMAT_SINK_H

#include "base/diags.h"

/* diags is borrowed. */
struct plm_diag_sink plmi_format_sink(struct plmi_diags *diags);
/* The same without notes. */
struct plm_diag_sink plmi_format_quiet_sink(struct plmi_diags *diags);

#endif
