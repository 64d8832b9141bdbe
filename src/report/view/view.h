/*
 * Every figure that a person sees of one debriefed dive, chosen and rounded once. Text, JSON, CSV and HTML print this
 * and nothing else. Lives no longer than the debriefed dive; must not replay or judge.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REPORT_VIEW_VIEW_H
#define PLM_REPORT_VIEW_VIEW_H

#include <plimsoll/debrief.h>
#include <plimsoll/plan.h>
#include <plimsoll/report.h>

#include "base/arena.h"
#include "base/text.h"

/* Groups of figures; JSON names them so, in this order. */
enum plmi_view_section {
    PLMI_VIEW_SOURCE,        /* "source"        */
    PLMI_VIEW_DIVE,          /* "dive"          */
    PLMI_VIEW_PROFILE,       /* "profile"       */
    PLMI_VIEW_MODEL,         /* "model": everything that was assumed */
    PLMI_VIEW_COUNTS,        /* "counts"        */
    PLMI_VIEW_LOADING,       /* "loading"       */
    PLMI_VIEW_DECOMPRESSION, /* "decompression" */
    PLMI_VIEW_OXYGEN,        /* "oxygen"        */
    PLMI_VIEW_GAS,           /* "gas"           */
    PLMI_VIEW_SECTIONS
};

/* How people read a value. Programs read number and duration alike as a number with fixed digits. */
enum plmi_view_style { PLMI_VIEW_NUMBER, PLMI_VIEW_DURATION, PLMI_VIEW_TEXT, PLMI_VIEW_FLAG };

/* One figure. Every section always has all of its items; an unknown one has NaN, or a NULL text. */
struct plmi_view_item {
    enum plmi_view_section section;
    const char *key;   /* JSON key and CSV column, ends in its unit; no two alike in a view */
    const char *label; /* as people read it                                                 */
    const char *unit;  /* behind the number, "" none                                        */
    enum plmi_view_style style;
    int digits;   /* behind the point                                                  */
    double value; /* number, seconds of a duration, 0 or 1 of a flag                   */
    const char *text;
    bool at_least; /* the number is the least that it can be                           */
};

struct plmi_view_stop {
    double depth_m, owed_min, done_min, difference_min;
}; /* 0, 1, 1, 1 digits */
struct plmi_view_band {
    double limit_bar, over_min;
}; /* 1, 1 digits       */

/* One mix in one mode, over the whole dive, in the order of first use. */
struct plmi_view_mix {
    const char *mode, *name;                     /* "closed", "10/70": the diluent on a loop                       */
    double o2_frac, he_frac;                     /* 3 digits                                                       */
    double minutes, least_depth_m, most_depth_m; /* 1 digit each      */
    double setpoint_low_bar, setpoint_high_bar;  /* 2 digits; NaN: not on a loop, or none recorded */
};

/* One finding with its words. */
struct plmi_view_finding {
    const struct plm_finding *finding;  /* borrowed */
    const char *kind, *severity, *hold; /* the stable words */
    const char *meaning;                /* of the kind, a few words                                          */
    double limit;                       /* NaN: none, or 0, of which people are not told                     */
    int digits;                         /* of value, limit and range                                         */
    const char *when;                   /* "2:10:30 to 2:11:40 at 9.1 to 7.8 m"                              */
    const char *measure;                /* "1.30 m, limit 0.00 m"; "" where there is no value                */
    const char *hold_words;             /* one sentence; "" untried                                          */
    const char *cost_words;             /* "Cost: ... Saved: ..."; "" unknown                                */
    const char *compared_words;         /* "Compared with: ...", what was put right for that; "" unknown     */
    const char *place;                  /* of the log: "lines 412-431", "" where they are not known          */
};

/* One row of planned / done / difference; words in place of numbers where they are not NULL. */
struct plmi_view_plan_row {
    const char *what, *unit, *planned_words, *done_words;
    double planned, done, difference;
    int digits;
};

/* What the dive comes to by one oxygen cell alone; the first is what it was judged by. */
struct plmi_view_cell {
    const char *name; /* "cell 2, which did not move" */
    int cell;         /* [from 1]; 0: as judged */
    bool still;
    double surfacing_gradient_pct, cns_pct, owed_min; /* 1 digit each */
    bool cns_at_least;
};

/* Minutes deeper than a depth. */
/* 0, 1 digits          */
struct plmi_view_depth {
    double deeper_m, minutes;
};
#define PLMI_VIEW_DEPTHS_MAX 12

/* The fastest ascent in a band of depth; NaN where there was none. */
/* 1 digit each         */
struct plmi_view_climb {
    double from_m, to_m, rate_m_min, at_s, depth_m;
};
enum plmi_view_climb_band { PLMI_VIEW_CLIMB_DEEP, PLMI_VIEW_CLIMB_SHALLOW, PLMI_VIEW_CLIMBS };

struct plmi_view {
    const struct plm_debriefed *debriefed; /* borrowed */
    const struct plm_rules *rules;         /* borrowed */
    struct plmi_arena arena;               /* owns all texts and lists */
    struct plmi_view_item *items;
    size_t item_count;
    const char *headline;               /* the answer in one line: "1 serious, 2 cautions, 1 note" */
    struct plmi_view_finding *findings; /* worst first */
    size_t finding_count;
    bool cost_known;                 /* all_put_right exists */
    const char *all_put_right_words; /* its cost_words, "" where it does not */
    bool decompression_known;
    struct plmi_view_stop *stops; /* deepest first */
    size_t stop_count;
    struct plmi_view_band bands[PLM_PO2_BANDS];
    struct plmi_view_mix *mixes;
    size_t mix_count;
    struct plmi_view_plan_row *plan_rows;
    size_t plan_row_count;
    const char *plan_verdict;                   /* NULL: no plan */
    const char *plan_assumed;                   /* what was taken for granted about it, "" nothing */
    struct plmi_view_cell cells[PLM_CELLS + 1]; /* none where the cells agree */
    size_t cell_count;
    double surfaced_s;          /* from then on at the surface; the end of a record that ends deeper */
    bool surfaced;              /* the record reaches the surface                     */
    const char *surfaced_clock; /* the same by the clock; NULL unknown                */
    struct plmi_view_depth depths[PLMI_VIEW_DEPTHS_MAX]; /* shallowest first                     */
    size_t depth_count;
    struct plmi_view_climb climbs[PLMI_VIEW_CLIMBS];
    const char **basis; /* what the figures stand on, for the head; the first tells of the gradient factors */
    size_t basis_count;
    const char **cautions;
    size_t caution_count;
    bool failed; /* memory ran out on the way */
};

/* Returns: OK and *out, which _free gives back; MEMORY. */
enum plm_status plmi_view_new(struct plmi_view **out, const struct plm_debriefed *debriefed);
void plmi_view_free(struct plmi_view *view);

/* "source" and so on. */
const char *plmi_view_section_text(enum plmi_view_section section);
/* The item of this key; an assertion fails where none is. */
const struct plmi_view_item *plmi_view_find(const struct plmi_view *view, const char *key);
/* As people read it, with its unit; "-" where unknown, "below 0 %" for a percentage of less than nothing. */
void plmi_view_item_write(struct plmi_text *out, const struct plmi_view_item *item);
/* A number as people read it with its unit; "-" where it is unknown, "never" where it is infinite. */
void plmi_view_number_write(struct plmi_text *out, double value, int digits, const char *unit);
/* The same without a unit for a narrow table: "25.2+" where it is the least that it can be, told by plmi_view_least. */
void plmi_view_least_write(struct plmi_text *out, double value, int digits, bool at_least);
extern const char plmi_view_least[];
/* Leads the table of cells. */
extern const char plmi_view_cells_words[];
/* A difference, with its sign even when positive: "+15.0". */
void plmi_view_change_write(struct plmi_text *out, double value, int digits);
/* "1 serious, 3 cautions"; "nothing" where there is none. */
void plmi_view_counts_write(struct plmi_text *out, size_t serious, size_t caution, size_t note);
/* "50/80". */
void plmi_view_factors_write(struct plmi_text *out, double low_pct, double high_pct);
/* "from the dive card": who states them, in words. */
const char *plmi_view_factors_from(enum plm_factors_from from);
/* Run times and durations as people read them: "25:10", from an hour on "1:05:30"; "-" unknown, "never" infinite. */
void plmi_view_duration_write(struct plmi_text *out, double seconds);
/* A sentence with figures: each {key} is replaced by that item as people read it. */
void plmi_view_sentence_write(struct plmi_text *out, const struct plmi_view *view, const char *sentence);
/* Digits behind the point that a unit of findings is shown with. */
int plmi_view_unit_digits(const char *unit);
/* The same for the table of the plan. */
int plmi_view_plan_digits(const char *unit);

#endif
