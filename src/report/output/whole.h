/*
 * Reports that are written in one piece: the text goes to the sink once it is whole.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REPORT_OUTPUT_WHOLE_H
#define PLM_REPORT_OUTPUT_WHOLE_H

#include <plimsoll/report.h>

#include "base/text.h"
#include "report/output/page.h"

/* A text for a report in this format: what is for people ("text") is made plain on its way in (base/text.h). */
void plmi_whole_init(struct plmi_text *text, const char *format);

/* The cautions that stand in every report. */
extern const char *const plmi_standing_cautions[];
extern const size_t plmi_standing_caution_count;
/* Cautions under their heading. */
void plmi_whole_cautions(struct plmi_page *page, const char *const *cautions, size_t count);

#endif
