/*
 * The parts of the text report. For the files of this room alone.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REPORT_TEXT_TEXT_H
#define PLM_REPORT_TEXT_TEXT_H

#include "report/output/page.h"
#include "report/view/view.h"

/* The answer: all findings at a glance, then one by one; verbose adds what a kind means and what to ask. */
void plmi_text_report_findings(struct plmi_page *page, const struct plmi_view *view, bool verbose);
/* Planned and done, where there is a plan. */
void plmi_text_report_cells(struct plmi_page *page, const struct plmi_view *view);
void plmi_text_report_plan(struct plmi_page *page, const struct plmi_view *view);
/* Loading, decompression, oxygen, gas. */
void plmi_text_report_figures(struct plmi_page *page, const struct plmi_view *view);
/* What was understood of the log, with the evidence. */
void plmi_text_report_verdict(struct plmi_page *page, const struct plm_verdict *verdict);
/* Everything assumed. */
void plmi_text_report_assumed(struct plmi_page *page, const struct plmi_view *view);

#endif
