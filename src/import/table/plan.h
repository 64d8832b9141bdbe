/*
 * The plan of a table: for every column what it means, in which unit, and why; and how its time runs. Made once from
 * the head (plan_make.h), then only read.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_IMPORT_TABLE_PLAN_H
#define PLM_IMPORT_TABLE_PLAN_H

#include <plimsoll/dive.h>
#include <plimsoll/verdict.h>

#include "import/table/cell.h"
#include "import/table/head.h"
#include "import/table/time.h"

/* What the values of a column look like in the head. */
struct plmi_column_stats {
    size_t looks[PLMI_LOOK_COUNT];
    size_t points, commas; /* numbers with a fraction, by its sign */
    size_t numbers, negatives, positives;
    double first, last, least, most;
    double usual_step; /* most of the steps are about this; NaN unknown */
};

struct plmi_column {
    size_t index;
    enum plmi_meaning meaning;
    const struct plmi_unit *unit; /* NULL where none is needed */
    int cell;                     /* of a CELL, from 0 */
    char point;                   /* '.' or ',' */
    bool point_known;             /* a fraction was seen, or the file has shown its point elsewhere */
    bool read, guessed;
    bool named_in_part;             /* some words of its name are not known: its values must bear it out */
    struct plmi_column_stats stats; /* by the point settled */
    const char *header;
    const char *evidence;     /* "" until something is known */
    const char *unknown_unit; /* a unit that the name, or the row below it, has and the meaning does not; "" none */
};

enum plmi_time_kind {
    PLMI_TIME_KIND_NUMBER,  /* elapsed, a number with a unit       */
    PLMI_TIME_KIND_ELAPSED, /* elapsed, with colons                */
    PLMI_TIME_KIND_CLOCK,   /* time of day, perhaps with a date    */
    PLMI_TIME_KIND_STAMP,   /* date and clock in one               */
    PLMI_TIME_KIND_INTERVAL /* no column: a sample every so often  */
};

#define PLMI_TABLE_CARRIED 32

/* A mix that is carried for open circuit. */
struct plmi_table_carried {
    double o2_frac, he_frac, po2_max_bar;
    enum plm_mix_use use;
};

/* What lines before the header say. Unknown: NULL, NaN, known = false. */
struct plmi_preamble {
    const char *diver, *recorder, *site, *number, *notes;
    struct plm_stamp start;
    const char *doubtful_date; /* whose day and month cannot be distinguished */
    double surface_bar, altitude_m, water_kg_m3, interval_s;
    double gf_low_pct, gf_high_pct;
    bool imperial;
    bool one_dive; /* the whole table is one dive, however long it is at the surface */
    struct plmi_table_carried carried[PLMI_TABLE_CARRIED];
    size_t carried_count;
};

#define PLMI_NO_COLUMN ((size_t)-1)

struct plmi_table_plan {
    struct plmi_table_head head;
    struct plmi_column *columns; /* every column of the table */
    size_t count;
    size_t by_meaning[PLMI_MEANING_COUNT]; /* index into columns of the one read, or PLMI_NO_COLUMN */
    enum plmi_time_kind time_kind;
    bool hour_min; /* one colon parts hours and minutes */
    enum plmi_date_order date_order;
    double interval_s;
    bool gauge;         /* a PRESSURE column counts from the surface */
    double surface_bar; /* [bar] taken off an absolute PRESSURE column; NaN unless needed */
    double bar_per_m;
    double zero_m; /* [m] what the surface reads; 0 where it reads right or nothing is known */
    bool zero_applied;
    bool depth_down; /* depths are written as negative numbers */
    struct plmi_preamble preamble;
    bool partial; /* a number before the header, or one of the caller, cannot be and is left aside */
    struct plm_verdict verdict;
    struct plm_verdict_fact *facts;
    size_t fact_capacity;
};

/* The column that is read for a meaning; NULL where there is none. */
struct plmi_column *plmi_plan_column(const struct plmi_table_plan *plan, enum plmi_meaning meaning);
/* The column that tells the depth, by itself or as a pressure; NULL where there is none. */
struct plmi_column *plmi_plan_depth_column(const struct plmi_table_plan *plan);
/* The header row's line, 0 where there is none. */
long plmi_plan_header_line(const struct plmi_table_plan *plan);

/* A text that lives in plan->head.arena; "" without memory. */
const char *plmi_plan_text(struct plmi_table_plan *plan, const char *format, ...) PLMI_PRINTF(2, 3);
/* Adds a fact to the verdict; its texts are borrowed. */
void plmi_plan_fact(struct plmi_table_plan *plan, const char *what, const char *found, const char *evidence);
/* Puts a reason behind those that the column has. */
void plmi_plan_evidence_add(struct plmi_table_plan *plan, struct plmi_column *column, const char *why);

/* The unit that a word behind a value names in a column of this meaning, or NULL. */
const struct plmi_unit *plmi_column_unit_of(enum plmi_meaning meaning, const char *word);
/* The number in a cell, by the column's point and in its unit, which another may name behind the number; false for
 * anything else. */
bool plmi_column_number(const struct plmi_column *column, const char *cell, size_t n, double *value);
/* Depth [m] of a value of the DEPTH or PRESSURE column read; the zero offset is not taken off. */
double plmi_plan_depth_m(const struct plmi_table_plan *plan, const struct plmi_column *column, double value);
/* The same of the cell in a row of the head; NaN where it is no number. */
double plmi_plan_row_depth_m(const struct plmi_table_plan *plan, const struct plmi_column *column, size_t row);

#endif
