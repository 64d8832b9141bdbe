/*
 * What every format of an audit shows, chosen and rounded once: columns of a dive, days, totals.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REPORT_TEAM_AUDIT_VIEW_H
#define PLM_REPORT_TEAM_AUDIT_VIEW_H

#include <plimsoll/audit.h>
#include <plimsoll/report_team.h>

#include "base/text.h"

/* One figure of a row; NaN unknown. Keys are JSON keys and CSV columns. */
struct plmi_audit_figure {
    const char *key;
    int digits;
    double (*get)(const struct plm_audit_row *row);
};
extern const struct plmi_audit_figure plmi_audit_figures[];
extern const size_t plmi_audit_figure_count;

/* One text of a row; NULL unknown. */
struct plmi_audit_word {
    const char *key;
    const char *(*get)(const struct plm_audit_row *row);
};
extern const struct plmi_audit_word plmi_audit_words[];
extern const size_t plmi_audit_word_count;

/* A day, or the whole: records of one dive count once. */
struct plmi_audit_day {
    char date[11];
    size_t dives, divers, records;
    size_t serious, caution, note;
    double deepest_m;
};

struct plmi_audit_view {
    const struct plm_audit_row *rows;
    size_t row_count;
    const struct plm_audit_trouble *troubles;
    size_t trouble_count, files, passed_over;
    struct plmi_audit_day *days; /* by date; unknown dates last */
    size_t day_count;
    struct plmi_audit_day whole;
    bool factors_alike; /* every row was judged by the same gradient factors, stated by the same */
    void (*page)(const struct plm_audit_row *row, char *buffer, size_t size); /* NULL: no pages */
    const struct plm_report_options *options;
};

/* Makes the view of an audit and writes it. */
void plmi_audit_view_write(struct plmi_text *out, const struct plm_report_audited *audited,
                           const struct plm_report_options *options,
                           void (*write)(struct plmi_text *out, const struct plmi_audit_view *view));

/* "50/80 (card)". */
void plmi_audit_factors_write(struct plmi_text *out, const struct plm_audit_row *row);
/* By which gradient factors the rows were judged, for the head; "" where there is none. */
void plmi_audit_judged_write(struct plmi_text *out, const struct plmi_audit_view *view);
/* How many further records a dive has. */
size_t plmi_audit_other_records(const struct plmi_audit_view *view, size_t row);
/* The worst finding in words: "stop-cut-short 6.5 min, firm, cost 5.8 min and 15.3 points": minutes of decompression
 * and points of surfacing gradient; "" none. */
void plmi_audit_worst_write(struct plmi_text *out, const struct plm_audit_row *row);
/* "wrist 4 in day-4/lumen.csv would fit with +3:00:00 added, as if set to another time zone"; "" no doubt. */
void plmi_audit_doubt_write(struct plmi_text *out, const struct plm_audit_row *row);
/* "05-05 setpoint at 1:50: ceiling +5.2 m, +3.4 min; 3 more": the weightiest, in short; "" where its recorders agree.
 */
void plmi_audit_disagreement_write(struct plmi_text *out, const struct plm_audit_row *row);

/* "22 dives of 6 divers on 5 days: 5 serious, 15 cautions, 7 notes". */
void plmi_audit_headline_write(struct plmi_text *out, const struct plmi_audit_view *view);
/* "29 records in 28 files; 1 file with trouble, 3 passed over". */
void plmi_audit_files_write(struct plmi_text *out, const struct plmi_audit_view *view);
/* "6 dives of 6 divers, to 46.1 m: nothing". */
void plmi_audit_day_write(struct plmi_text *out, const struct plmi_audit_day *day);
/* "2031-05-06 08:40", as far as it is known. */
void plmi_audit_start_write(struct plmi_text *out, const struct plm_audit_row *row);

/* The formats; what: a struct plm_report_audited. */
void plmi_audit_text(struct plmi_text *out, const void *what, const struct plm_report_options *options);
void plmi_audit_json(struct plmi_text *out, const void *what, const struct plm_report_options *options);
void plmi_audit_csv(struct plmi_text *out, const void *what, const struct plm_report_options *options);
void plmi_audit_html(struct plmi_text *out, const void *what, const struct plm_report_options *options);

#endif
