/*
 * Units that no name tells, taken from what the values can be. Every guess is reported.
 * SPDX-License-Identifier: MIT
 */
#include "import/table/units_guess.h"

#include <math.h>
#include <string.h>

#include "base/figure.h"
#include "dive/stated.h"

/* A unit fits where the largest value lies within. First fit wins. */
struct fit {
    double most;
    const char *unit;
};

static const struct fit PO2_FITS[] = {{5, "bar"}, {350, "kPa"}, {5000, "mbar"}, {1e9, "Pa"}};
static const struct fit TEMP_FITS[] = {{45, "C"}, {150, "F"}, {1e9, "K"}};
static const struct fit FRACTION_FITS[] = {{1, "fraction"}, {1e9, "%"}};
/* By the surface reading of an absolute pressure. */
static const struct fit AMBIENT_FITS[] = {{1.3, "bar"}, {20, "psi"}, {130, "kPa"}, {1300, "mbar"}, {1e9, "Pa"}};

#define FIT(table, value) fit(table, sizeof table / sizeof table[0], value)

static const char *fit(const struct fit *fits, size_t count, double value)
{
    for (size_t i = 0; i < count; i++) {
        if (value <= fits[i].most) {
            return fits[i].unit;
        }
    }
    return fits[0].unit;
}

static void guess(struct plmi_table_plan *plan, struct plmi_column *column, const char *unit, enum plm_level level,
                  const char *why, struct plmi_diags *diags)
{
    column->unit =
        plmi_unit_of_word(strcmp(unit, "C") == 0 ? "c" : unit, plmi_meaning_info(column->meaning)->dimension);
    if (column->unit == NULL) {
        column->unit = plmi_unit_of_word(unit, PLMI_DIMENSION_PRESSURE);
    }
    column->guessed = true;
    plmi_plan_evidence_add(plan, column, why);
    plmi_diags_add(diags, level, PLM_DIAG_UNIT_GUESSED, plmi_plan_header_line(plan), 0,
                   "column %zu, %s: taken as %s (%s)", column->index + 1, plmi_meaning_info(column->meaning)->name,
                   unit, why);
}

/* A row of the head that tells both time and depth. */
struct moment {
    double at, depth_m;
};

/* The next such row from *row on; false behind the last. */
static bool next_moment(const struct plmi_table_plan *plan, const struct plmi_column *when,
                        const struct plmi_column *depth, size_t *row, struct moment *out)
{
    for (; *row < plan->head.count; ++*row) {
        const char *cell = plmi_head_cell(&plan->head.rows[*row], when->index);
        out->depth_m = plmi_plan_row_depth_m(plan, depth, *row);
        if (!isnan(out->depth_m) && plmi_column_number(when, cell, strlen(cell), &out->at)) {
            ++*row;
            return true;
        }
    }
    return false;
}

/* Whether one row in the water lies away from both beside it, which lie together: it tells nothing of how divers move.
 */
static bool is_odd(const struct moment *before, const struct moment *odd, const struct moment *after)
{
    const double in_water_m = 5, far_m = 2;
    double there_m = odd->depth_m - before->depth_m, back_m = odd->depth_m - after->depth_m;
    return before->depth_m > in_water_m && after->depth_m > in_water_m && there_m * back_m > 0 &&
           fmin(fabs(there_m), fabs(back_m)) > fmax(far_m, 2 * fabs(before->depth_m - after->depth_m));
}

/* The fastest change of depth [m a unit of time] between rows of the head; NaN where nothing moves. */
static double fastest(const struct plmi_table_plan *plan, const struct plmi_column *when,
                      const struct plmi_column *depth)
{
    double most = (double)NAN;
    size_t row = plan->head.data;
    struct moment before, here, after;
    if (!next_moment(plan, when, depth, &row, &before) || !next_moment(plan, when, depth, &row, &here)) {
        return most;
    }
    for (bool more = true; more;) {
        more = next_moment(plan, when, depth, &row, &after);
        if (!more || !is_odd(&before, &here, &after)) {
            double rate = fabs(here.depth_m - before.depth_m) / (here.at - before.at);
            most = here.at > before.at && rate > 0 && !(rate <= most) ? rate : most;
            before = here;
        }
        here = after;
    }
    return most;
}

/* Divers move at 5 to 60 m/min: the unit of time is the one that makes it so. */
static void guess_time(struct plmi_table_plan *plan, struct plmi_column *when, struct plmi_diags *diags)
{
    const double fast_m_s = 1.2;    /* 72 m/min: nobody's usual descent */
    const double slow_m_ms = 0.003; /* a fastest change of 3 m in 1000 units, were they seconds */
    double rate = fastest(plan, when, plmi_plan_depth_column(plan));
    if (isnan(rate)) {
        guess(plan, when, "s", PLM_LEVEL_WARNING, "no unit is named and the depth does not move", diags);
    } else if (rate > fast_m_s) {
        guess(plan, when, "min", PLM_LEVEL_NOTE,
              plmi_plan_text(plan, "in seconds the depth would change by %s m/s", plmi_figure(rate, 1).text), diags);
    } else if (rate < slow_m_ms && when->stats.usual_step >= 500) {
        guess(plan, when, "ms", PLM_LEVEL_NOTE,
              plmi_plan_text(plan, "in seconds the depth would change by %s m/s at most", plmi_figure(rate, 4).text),
              diags);
    } else {
        guess(plan, when, "s", PLM_LEVEL_NOTE,
              plmi_plan_text(plan, "so the depth changes by %s m/s at most", plmi_figure(rate, 2).text), diags);
    }
}

static void guess_depth(struct plmi_table_plan *plan, struct plmi_column *depth, struct plmi_diags *diags)
{
    const struct plmi_column *temp = plmi_plan_column(plan, PLMI_MEANING_TEMP);
    bool fahrenheit = temp != NULL && temp->unit != NULL && strcmp(temp->unit->name, "F") == 0;
    if (plan->preamble.imperial || fahrenheit) {
        guess(plan, depth, "ft", PLM_LEVEL_WARNING,
              plan->preamble.imperial ? "the lines before the header name imperial units" : "temperature is in F",
              diags);
    } else {
        guess(plan, depth, "m", PLM_LEVEL_NOTE, "no unit is named", diags);
    }
}

/* Depths below zero and hardly any above: the axis points up. */
static void settle_sign(struct plmi_table_plan *plan, struct plmi_column *depth, struct plmi_diags *diags)
{
    const double least_depth = 4; /* in any unit: more than a wrong zero */
    if (depth->stats.least < -least_depth && depth->stats.most < -depth->stats.least / 8 &&
        depth->stats.negatives > depth->stats.positives) {
        plan->depth_down = true;
        depth->guessed = true;
        depth->evidence = plmi_plan_text(plan, "%s; written as negative numbers", depth->evidence);
        plmi_diags_add(diags, PLM_LEVEL_WARNING, PLM_DIAG_UNIT_GUESSED, 0, 0,
                       "column %zu, depth: it runs from %s to %s; the sign is turned", depth->index + 1,
                       plmi_figure_short(depth->stats.least, 1).text, plmi_figure_short(depth->stats.most, 1).text);
    }
}

/* Whether a PRESSURE column counts from the surface or from nothing, and the surface's pressure. */
static enum plm_status settle_pressure(struct plmi_table_plan *plan, struct plmi_column *column,
                                       const struct plm_rules *rules, struct plmi_diags *diags)
{
    struct plmi_column_stats stats = column->stats;
    uint64_t concepts = plmi_header_read(column->header).concepts;
    bool stated = (concepts & (PLMI_BIT(AMBIENT) | PLMI_BIT(GAUGE))) != 0;
    if (column->unit == NULL) {
        bool near_zero = fabs(stats.least) < 0.3;
        guess(plan, column, near_zero ? "bar" : FIT(AMBIENT_FITS, stats.least), PLM_LEVEL_WARNING,
              near_zero ? "no unit is named" : "so the least value is the air's pressure", diags);
    }
    double least_bar = plmi_unit_convert(column->unit, stats.least);
    plan->gauge = stated ? (concepts & PLMI_BIT(GAUGE)) != 0 : !(least_bar >= PLM_SURFACE_LEAST_BAR);
    double water_kg_m3 = isnan(plan->preamble.water_kg_m3) ? rules->water_kg_m3 : plan->preamble.water_kg_m3;
    plan->bar_per_m = plm_bar_per_m(water_kg_m3);
    if (plan->gauge) {
        plan->surface_bar = 0;
        column->evidence = plmi_plan_text(plan, "%s; from the surface%s", column->evidence,
                                          stated ? ", as the name says" : ", as it begins near 0");
        return PLM_STATUS_OK;
    }
    bool preamble = !isnan(plan->preamble.surface_bar);
    if (!preamble && !plmi_stated_possible(PLMI_TOLD_SURFACE, least_bar)) {
        plmi_diags_add(diags, PLM_LEVEL_ERROR, PLM_DIAG_PRESSURE, 0, 0,
                       "column %zu, pressure: its least value, %s bar, is no surface pressure (0.4 to 1.2 bar); a "
                       "line before the header tells it: "
                       "surface pressure, 1.013 bar; nothing read",
                       column->index + 1, plmi_figure(least_bar, 3).text);
        return PLM_STATUS_INPUT;
    }
    plan->surface_bar = preamble ? plan->preamble.surface_bar : least_bar;
    column->evidence = plmi_plan_text(plan, "%s; absolute, less %s bar at the surface, %s", column->evidence,
                                      plmi_figure(plan->surface_bar, 3).text,
                                      preamble ? "as the lines before the header say" : "its least value");
    if (!preamble) {
        plmi_diags_add(diags, PLM_LEVEL_NOTE, PLM_DIAG_PRESSURE, 0, 0,
                       "the surface pressure is taken from the least value of column %zu, %s bar", column->index + 1,
                       plmi_figure(plan->surface_bar, 3).text);
    }
    return PLM_STATUS_OK;
}

static void guess_by_range(struct plmi_table_plan *plan, struct plmi_column *column, struct plmi_diags *diags)
{
    struct plmi_column_stats stats = column->stats;
    const struct plmi_column *o2 = plmi_plan_column(plan, PLMI_MEANING_O2);
    const char *unit;
    if (plmi_meaning_info(column->meaning)->dimension == PLMI_DIMENSION_TEMP) {
        unit = FIT(TEMP_FITS, stats.most);
    } else if (column->meaning == PLMI_MEANING_HE && o2 != NULL) {
        unit = o2->unit == NULL ? FIT(FRACTION_FITS, o2->stats.most) : o2->unit->name;
    } else if (column->meaning == PLMI_MEANING_HE || column->meaning == PLMI_MEANING_O2) {
        unit = FIT(FRACTION_FITS, stats.most);
    } else {
        unit = FIT(PO2_FITS, stats.most);
    }
    const char *why = stats.numbers == 0
                          ? "no value is there"
                          : plmi_plan_text(plan, "values run from %s to %s", plmi_figure_short(stats.least, 2).text,
                                           plmi_figure_short(stats.most, 2).text);
    guess(plan, column, unit, PLM_LEVEL_NOTE, why, diags);
}

enum plm_status plmi_plan_units(struct plmi_table_plan *plan, const struct plm_rules *rules, struct plmi_diags *diags)
{
    for (size_t i = 0; i < plan->count; i++) {
        struct plmi_column *column = &plan->columns[i];
        bool by_range = column->meaning == PLMI_MEANING_TEMP || column->meaning == PLMI_MEANING_PO2 ||
                        column->meaning == PLMI_MEANING_CELL || column->meaning == PLMI_MEANING_SETPOINT ||
                        column->meaning == PLMI_MEANING_O2 || column->meaning == PLMI_MEANING_HE;
        if (column->read && column->unit == NULL && by_range) {
            guess_by_range(plan, column, diags);
        }
    }
    struct plmi_column *depth = plmi_plan_column(plan, PLMI_MEANING_DEPTH);
    struct plmi_column *pressure = plmi_plan_column(plan, PLMI_MEANING_PRESSURE);
    if (depth != NULL && depth->unit == NULL) {
        guess_depth(plan, depth, diags);
    }
    if (depth != NULL) {
        settle_sign(plan, depth, diags);
    }
    enum plm_status status = PLM_STATUS_OK;
    if (pressure != NULL) {
        status = settle_pressure(plan, pressure, rules, diags);
    }
    struct plmi_column *when = plmi_plan_column(plan, PLMI_MEANING_TIME);
    if (when != NULL && plan->time_kind == PLMI_TIME_KIND_NUMBER && when->unit == NULL) {
        guess_time(plan, when, diags);
    }
    return status;
}
