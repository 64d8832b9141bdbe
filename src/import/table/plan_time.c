/*
 * How the time of a table runs: elapsed or by the clock, in which form, and in which order its dates are written.
 * SPDX-License-Identifier: MIT
 */
#include "import/table/plan_time.h"

#include <math.h>
#include <string.h>

#include "base/figure.h"
#include "dive/stated.h"
#include "import/table/cell_unit.h"
#include "import/table/preamble.h"

/* The look that most values of a column have. */
static enum plmi_look main_look(const struct plmi_column *column)
{
    const struct plmi_column_stats *stats = &column->stats;
    enum plmi_look best = PLMI_LOOK_EMPTY;
    size_t most = 0;
    for (int look = PLMI_LOOK_NUMBER; look < PLMI_LOOK_COUNT; look++) {
        if (stats->looks[look] > most) {
            most = stats->looks[look];
            best = (enum plmi_look)look;
        }
    }
    return best;
}

static void move_meaning(struct plmi_table_plan *plan, struct plmi_column *column, enum plmi_meaning to,
                         const char *why)
{
    if (plan->by_meaning[column->meaning] == column->index) {
        plan->by_meaning[column->meaning] = PLMI_NO_COLUMN;
    }
    column->meaning = to;
    column->read = plan->by_meaning[to] == PLMI_NO_COLUMN;
    column->guessed = true;
    plmi_plan_evidence_add(plan, column, why);
    if (column->read) {
        plan->by_meaning[to] = column->index;
    }
}

/* Values overrule names: a "time" that holds dates is a stamp, a column without a known name that holds dates is a
 * date. */
static void meanings_by_looks(struct plmi_table_plan *plan)
{
    for (size_t i = 0; i < plan->count; i++) {
        struct plmi_column *column = &plan->columns[i];
        enum plmi_look look = main_look(column);
        bool unknown = column->meaning == PLMI_MEANING_UNKNOWN;
        bool timely = column->meaning == PLMI_MEANING_TIME || column->meaning == PLMI_MEANING_CLOCK ||
                      column->meaning == PLMI_MEANING_DATE || column->meaning == PLMI_MEANING_DATE_CLOCK;
        if (look == PLMI_LOOK_DATE_CLOCK && (timely || unknown) && column->meaning != PLMI_MEANING_DATE_CLOCK) {
            move_meaning(plan, column, PLMI_MEANING_DATE_CLOCK, "its values are dates with clocks");
        } else if (look == PLMI_LOOK_DATE && (timely || unknown) && column->meaning != PLMI_MEANING_DATE) {
            move_meaning(plan, column, PLMI_MEANING_DATE, "its values are dates");
        } else if (look == PLMI_LOOK_NUMBER &&
                   (column->meaning == PLMI_MEANING_CLOCK || column->meaning == PLMI_MEANING_DATE_CLOCK)) {
            move_meaning(plan, column, PLMI_MEANING_TIME, "its values are numbers");
        } else if (look == PLMI_LOOK_CLOCK && column->meaning == PLMI_MEANING_DATE_CLOCK) {
            move_meaning(plan, column, PLMI_MEANING_CLOCK, "its values are clocks");
        }
    }
}

/* "time" with colons: the time of day, or since the start? */
static bool is_daytime(const struct plmi_table_plan *plan, const struct plmi_column *when)
{
    const int64_t late_start_ms = 10 * 60 * 1000;
    enum plmi_time_form form = plmi_header_read(when->header).form;
    int64_t first_ms = 0;
    for (size_t i = plan->head.data; i < plan->head.count; i++) {
        const char *cell = plmi_head_cell(&plan->head.rows[i], when->index);
        struct plmi_cell_unit unit;
        if (plmi_cell_unit_split(&unit, cell, strlen(cell))) {
            return false; /* "12:31 min" */
        }
        if (strpbrk(cell, "aApPmM") != NULL && plmi_daytime_parse(cell, &first_ms)) {
            return true;
        }
        if (plmi_elapsed_parse(cell, form == PLMI_TIME_FORM_HOUR_MIN, &first_ms)) {
            break;
        }
    }
    bool two_colons = false;
    for (size_t i = plan->head.data; i < plan->head.count && !two_colons; i++) {
        const char *cell = plmi_head_cell(&plan->head.rows[i], when->index);
        const char *colon = strchr(cell, ':');
        two_colons = colon != NULL && strchr(colon + 1, ':') != NULL;
    }
    bool dated = plmi_plan_column(plan, PLMI_MEANING_DATE) != NULL;
    return two_colons ? dated || first_ms > late_start_ms : dated && form != PLMI_TIME_FORM_MIN_SEC;
}

static void tell_doubtful(const char *date, struct plmi_diags *diags)
{
    plmi_diags_add(diags, PLM_LEVEL_WARNING, PLM_DIAG_COLUMN_GUESSED, 0, 0,
                   "day and month of %.40s cannot be told apart; the day is taken to stand first (--date-order dmy, "
                   "mdy or ymd says it)",
                   date);
}

/* Day and month distinguished by the first rows: a part above 12 is a day. */
static void date_order_from_data(struct plmi_table_plan *plan, const struct plmi_column *column,
                                 struct plmi_diags *diags)
{
    int most[3] = {0, 0, 0};
    int last[3] = {0, 0, 0};
    int changes[3] = {0, 0, 0};
    bool year_first = false;
    const char *shown = "";
    for (size_t i = plan->head.data; i < plan->head.count; i++) {
        int parts[3];
        const char *cell = plmi_head_cell(&plan->head.rows[i], column->index);
        if (!plmi_date_parts(cell, parts, &year_first)) {
            continue;
        }
        for (int p = 0; p < 3; p++) {
            changes[p] += last[p] != 0 && parts[p] != last[p];
            most[p] = parts[p] > most[p] ? parts[p] : most[p];
            last[p] = parts[p];
        }
        shown = cell;
    }
    const char *why = "the year stands first";
    enum plmi_date_order order = PLMI_DATE_ORDER_YMD;
    if (!year_first) {
        bool first_is_day = most[0] > 12 || (most[1] <= 12 && changes[0] > changes[1]);
        bool second_is_day = most[1] > 12 || (most[0] <= 12 && changes[1] > changes[0]);
        order = second_is_day ? PLMI_DATE_ORDER_MDY : PLMI_DATE_ORDER_DMY;
        why = most[0] > 12 || most[1] > 12 ? "a part above 12 is the day"
                                           : "the part that changes from row to row is the day";
        if (!first_is_day && !second_is_day) {
            why = strchr(shown, '.') != NULL ? "so dates with points are written" : "not to be told from the data";
            if (strchr(shown, '.') == NULL && shown[0] != '\0') {
                tell_doubtful(shown, diags);
            }
        }
    }
    plan->date_order = order;
    plmi_plan_fact(plan, "Order of dates", plmi_date_order_text(order), why);
}

static void settle_date_order(struct plmi_table_plan *plan, const struct plm_import_options *options,
                              struct plmi_diags *diags)
{
    plan->date_order = plmi_date_order_parse(options->date_order);
    const struct plmi_column *column = plmi_plan_column(plan, PLMI_MEANING_DATE);
    column = column == NULL ? plmi_plan_column(plan, PLMI_MEANING_DATE_CLOCK) : column;
    if (plan->date_order != PLMI_DATE_ORDER_UNKNOWN) {
        plmi_plan_fact(plan, "Order of dates", plmi_date_order_text(plan->date_order), "--date-order");
    } else if (column != NULL) {
        date_order_from_data(plan, column, diags);
    }
}

/* Which of the columns makes the time; the others only tell the start. */
static void settle_kind(struct plmi_table_plan *plan, double asked_s)
{
    struct plmi_column *when = plmi_plan_column(plan, PLMI_MEANING_TIME);
    if (when != NULL && main_look(when) == PLMI_LOOK_CLOCK) {
        if (plmi_plan_column(plan, PLMI_MEANING_CLOCK) == NULL && is_daytime(plan, when)) {
            move_meaning(plan, when, PLMI_MEANING_CLOCK, "its values are times of day");
            when = NULL;
        } else {
            plan->time_kind = PLMI_TIME_KIND_ELAPSED;
            plan->hour_min = plmi_header_read(when->header).form == PLMI_TIME_FORM_HOUR_MIN;
            when->evidence = plmi_plan_text(plan, "%s; written as %s", when->evidence,
                                            plan->hour_min ? "h:min" : "min:s or h:min:s");
            when->unit = NULL;
            return;
        }
    }
    if (when != NULL) {
        plan->time_kind = PLMI_TIME_KIND_NUMBER;
    } else if (plmi_plan_column(plan, PLMI_MEANING_DATE_CLOCK) != NULL) {
        plan->time_kind = PLMI_TIME_KIND_STAMP;
    } else if (plmi_plan_column(plan, PLMI_MEANING_CLOCK) != NULL) {
        plan->time_kind = PLMI_TIME_KIND_CLOCK;
    } else {
        plan->time_kind = PLMI_TIME_KIND_INTERVAL;
        plan->interval_s = asked_s > 0 ? asked_s : plan->preamble.interval_s;
    }
}

static void interval_fact(struct plmi_table_plan *plan, const struct plm_import_options *options,
                          struct plmi_diags *diags)
{
    if (plan->time_kind == PLMI_TIME_KIND_INTERVAL && plan->interval_s > 0) {
        plmi_plan_fact(plan, "Time",
                       plmi_plan_text(plan, "a row every %s s", plmi_figure_short(plan->interval_s, 3).text),
                       options->interval_s > 0 ? "--interval" : "told before the header");
    } else if (options->interval_s > 0) {
        plmi_diags_add(diags, PLM_LEVEL_NOTE, PLM_DIAG_UNUSED, 0, 0,
                       "--interval is not used: the table tells the time");
    }
}

void plmi_plan_time(struct plmi_table_plan *plan, const struct plm_import_options *options, struct plmi_diags *diags)
{
    meanings_by_looks(plan);
    settle_date_order(plan, options, diags);
    plmi_plan_preamble(plan, diags);
    if (plan->preamble.doubtful_date != NULL) {
        tell_doubtful(plan->preamble.doubtful_date, diags);
    }
    double interval_s =
        options->interval_s > 0 ? plmi_stated_settle(PLMI_TOLD_SAMPLING, options->interval_s, diags, 0) : 0;
    plan->partial = plan->partial || isnan(interval_s);
    settle_kind(plan, interval_s);
    interval_fact(plan, options, diags);
}
