/*
 * How the parts of a view add to it. For the files of this room alone.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REPORT_VIEW_BUILD_H
#define PLM_REPORT_VIEW_BUILD_H

#include "report/view/view.h"

#define PLMI_VIEW_ITEMS_MAX 128

/* What the parts are made from. */
struct plmi_view_from {
    const struct plm_debriefed *debriefed;
    const struct plm_rules *rules;
    const struct plm_dive_info *info;
    const struct plm_trace_summary *summary;
    const struct plm_assumed *assumed;
};

void plmi_view_add_number(struct plmi_view *view, enum plmi_view_section section, const char *key, const char *label,
                          double value, int digits, const char *unit);
void plmi_view_add_duration(struct plmi_view *view, enum plmi_view_section section, const char *key, const char *label,
                            double seconds);
/* text is copied; NULL: unknown. */
void plmi_view_add_text(struct plmi_view *view, enum plmi_view_section section, const char *key, const char *label,
                        const char *text);
void plmi_view_add_flag(struct plmi_view *view, enum plmi_view_section section, const char *key, const char *label,
                        bool value);
/* A copy that lives as long as the view; "" and view->failed without memory. */
const char *plmi_view_keep(struct plmi_view *view, const char *text);
/* The same of a text that was put together; frees it. */
const char *plmi_view_keep_text(struct plmi_view *view, struct plmi_text *text);
/* Zeroed room for count items of size bytes; NULL and view->failed without memory. */
void *plmi_view_room(struct plmi_view *view, size_t count, size_t size);

/* The parts, in the order of sections. */
void plmi_view_add_source(struct plmi_view *view, const struct plmi_view_from *from);
void plmi_view_add_model(struct plmi_view *view, const struct plmi_view_from *from);
void plmi_view_add_basis(struct plmi_view *view, const struct plmi_view_from *from);
void plmi_view_add_findings(struct plmi_view *view, const struct plmi_view_from *from);
void plmi_view_add_each_cell(struct plmi_view *view, const struct plmi_view_from *from);
void plmi_view_add_plan(struct plmi_view *view, const struct plmi_view_from *from);
void plmi_view_add_loading(struct plmi_view *view, const struct plmi_view_from *from);
void plmi_view_add_decompression(struct plmi_view *view, const struct plmi_view_from *from);
void plmi_view_add_oxygen(struct plmi_view *view, const struct plmi_view_from *from);
void plmi_view_add_gas(struct plmi_view *view, const struct plmi_view_from *from);
void plmi_view_add_course(struct plmi_view *view, const struct plmi_view_from *from);
void plmi_view_add_cautions(struct plmi_view *view, const struct plmi_view_from *from);

/* The words of one finding. */
void plmi_view_finding_words(struct plmi_view *view, struct plmi_view_finding *one);
/* "Cost: 3.2 min of decompression, ...", and what was saved. */
const char *plmi_view_cost_words(struct plmi_view *view, const struct plm_cost *cost);

#endif
