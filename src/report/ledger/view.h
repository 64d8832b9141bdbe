/*
 * What every format of the reports over the ledger shows, chosen and rounded once.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REPORT_LEDGER_VIEW_H
#define PLM_REPORT_LEDGER_VIEW_H

#include <plimsoll/report_ledger.h>

#include "base/text.h"
#include "report/output/page.h"
#include "syntax/json.h"

/* One figure of a day (struct plm_day) or of a dive (struct plm_entry); NaN unknown. Keys are JSON keys and CSV
 * columns. */
struct plmi_ledger_figure {
    const char *key;
    int digits;
    double (*get)(const void *of);
    double (*beyond_min)(const void *of); /* above 0: the figure is the least that it can be; NULL: it never is */
};
struct plmi_ledger_figures {
    const struct plmi_ledger_figure *rows;
    size_t count;
};
extern const struct plmi_ledger_figures plmi_ledger_day_figures, plmi_ledger_dive_figures;

/* The one of this key; an assertion fails where none is. */
const struct plmi_ledger_figure *plmi_ledger_figure_find(const struct plmi_ledger_figures *figures, const char *key);
/* Whether it is the least that it can be, as an oxygen clock beyond its table. */
bool plmi_ledger_figure_least(const struct plmi_ledger_figure *figure, const void *of);
/* What to tell of a day with oxygen beyond the table of limits, in one sentence. Returns: false on other days. */
bool plmi_ledger_beyond_write(struct plmi_text *out, const struct plm_day *day);
/* As people read it; "-" where unknown. */
void plmi_ledger_figure_write(struct plmi_text *out, const struct plmi_ledger_figure *figure, const void *of);

/* "2031-05-06" of a day, "2031-05-06T08:40:05+11:00" of a dive. */
void plmi_ledger_date_write(struct plmi_text *out, int64_t day);
void plmi_ledger_start_write(struct plmi_text *out, const struct plm_dive_span *span);

/* "Tern: 4 dives on 4 days" */
void plmi_ledger_headline_write(struct plmi_text *out, const struct plm_ledger_shown *shown);
/* How many dives of one diver stand in a row, from the first of them on. */
size_t plmi_ledger_diver_run(const struct plm_ledger_listed *listed, size_t first);
/* That the ledger knows no more than it was given. */
extern const char plmi_ledger_own_caution[];

/* A column of a table of text: two lines of heading, a figure by its key. */
struct plmi_ledger_column {
    const char *head, *unit, *key;
    int width;
};
/* The headings, behind those of a first column, and the cells of one row. */
void plmi_ledger_heads_write(struct plmi_page *page, int first_width, const char *first,
                             const struct plmi_ledger_column *columns, size_t count);
void plmi_ledger_cells_write(struct plmi_page *page, const struct plmi_ledger_figures *figures,
                             const struct plmi_ledger_column *columns, size_t count, const void *of);

/* All figures as members of the object that is open; as a head and as cells of a CSV row, each with a comma before it.
 */
void plmi_ledger_figures_json(struct plmi_json *json, const struct plmi_ledger_figures *figures, const void *of);
void plmi_ledger_figures_head(struct plmi_text *out, const struct plmi_ledger_figures *figures);
void plmi_ledger_figures_cells(struct plmi_text *out, const struct plmi_ledger_figures *figures, const void *of);
/* {"serious","caution","note"} under "findings". */
void plmi_ledger_findings_json(struct plmi_json *json, size_t serious, size_t caution, size_t note);
/* One dive as an object of an array. */
void plmi_ledger_dive_json(struct plmi_json *json, const struct plm_entry *entry, bool with_diver);
/* The standing cautions and one of the report's own first. */
void plmi_ledger_cautions_json(struct plmi_json *json, const char *own);
void plmi_ledger_cautions_text(struct plmi_page *page, const char *own);

/* What due tells, computed once. */
struct plmi_due_view {
    const struct plm_ledger_due *due;
    double saturated_bar;
    double over_pct[PLM_COMPARTMENTS]; /* inert gas over air saturation */
    int leading;                       /* 1..16 */
    /* the first NaN: no dive, or its record ends in the water */
    double hours_since_surfacing, hours_to_saturation, otu_run_allowed;
    bool last_in_water;
    /* row of the flying guideline that the dives before point at; -1: no dive before */
    int guideline;
};
#define PLMI_GUIDELINE_ROWS 3
extern const char *const plmi_guideline_rows[PLMI_GUIDELINE_ROWS];
extern const char plmi_guideline_source[], plmi_due_caution[];
struct plmi_due_view plmi_due_view_of(const struct plm_ledger_due *due, const struct plm_rules *rules);

/* The formats. */
void plmi_ledger_list_text(struct plmi_text *out, const void *what, const struct plm_report_options *options);
void plmi_ledger_list_json(struct plmi_text *out, const void *what, const struct plm_report_options *options);
void plmi_ledger_list_csv(struct plmi_text *out, const void *what, const struct plm_report_options *options);
void plmi_ledger_show_text(struct plmi_text *out, const void *what, const struct plm_report_options *options);
void plmi_ledger_show_json(struct plmi_text *out, const void *what, const struct plm_report_options *options);
void plmi_ledger_show_html(struct plmi_text *out, const void *what, const struct plm_report_options *options);
void plmi_ledger_show_csv(struct plmi_text *out, const void *what, const struct plm_report_options *options);
void plmi_ledger_due_text(struct plmi_text *out, const void *what, const struct plm_report_options *options);
void plmi_ledger_due_json(struct plmi_text *out, const void *what, const struct plm_report_options *options);
void plmi_ledger_due_csv(struct plmi_text *out, const void *what, const struct plm_report_options *options);

#endif
