/*
 * The parts of the debrief as HTML. For the files of this room and the handover.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REPORT_HTML_DEBRIEF_H
#define PLM_REPORT_HTML_DEBRIEF_H

#include "report/html/html.h"
#include "report/html/pictures.h"
#include "report/view/sentences.h"

/* Who, when, the answer in one line, what it came to. */
void plmi_html_answer(struct plmi_text *out, const struct plmi_view *view);
/* What was exceeded, one row a finding: by how much, whether it holds, what it cost. id: of the dive on its page. */
void plmi_html_findings(struct plmi_text *out, const struct plmi_view *view, const char *id);
/* All pictures over one axis of time, with what the cursor reads. */
void plmi_html_timeline(struct plmi_text *out, const struct plmi_view *view, const char *id);
/* What the cursor reads: each value of each sample. */
void plmi_html_cursor_values(struct plmi_text *out, const struct plmi_curves *curves);
/* The times of the samples, as the script takes them. */
void plmi_html_cursor_steps(struct plmi_text *out, const struct plmi_curves *curves);
/* Decompression owed and done, stop by stop. */
void plmi_html_stops(struct plmi_text *out, const struct plmi_view *view);
/* Planned and done, where there is a plan. */
void plmi_html_cells(struct plmi_text *out, const struct plmi_view *view);
void plmi_html_plan(struct plmi_text *out, const struct plmi_view *view);
/* Loading, oxygen, gas. */
void plmi_html_figures(struct plmi_text *out, const struct plmi_view *view);
/* What was understood of the log, with the evidence. */
void plmi_html_verdict(struct plmi_text *out, const struct plm_verdict *verdict);
/* Everything assumed. */
void plmi_html_assumed(struct plmi_text *out, const struct plmi_view *view);
/* The sentences of a group as terms of a list that is open. */
void plmi_html_sentences(struct plmi_text *out, const struct plmi_view *view, enum plmi_sentence_group group);
/* A sentence with figures as a whole element. */
void plmi_html_sentence(struct plmi_text *out, const char *element, const char *class_name,
                        const struct plmi_view *view, const char *sentence);

#endif
