/*
 * What the files that make a plan, and those that read by it, ask of it. Decides nothing.
 * SPDX-License-Identifier: MIT
 */
#include "import/table/plan.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "base/number.h"
#include "import/table/cell_unit.h"

struct plmi_column *plmi_plan_column(const struct plmi_table_plan *plan, enum plmi_meaning meaning)
{
    size_t at = plan->by_meaning[meaning];
    return at == PLMI_NO_COLUMN ? NULL : &plan->columns[at];
}

struct plmi_column *plmi_plan_depth_column(const struct plmi_table_plan *plan)
{
    struct plmi_column *depth = plmi_plan_column(plan, PLMI_MEANING_DEPTH);
    return depth != NULL ? depth : plmi_plan_column(plan, PLMI_MEANING_PRESSURE);
}

long plmi_plan_header_line(const struct plmi_table_plan *plan)
{
    return plan->head.header == PLMI_NO_ROW ? 0 : plan->head.rows[plan->head.header].line;
}

const char *plmi_plan_text(struct plmi_table_plan *plan, const char *format, ...)
{
    char text[512];
    va_list arguments;
    va_start(arguments, format);
    int n = vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);
    size_t length = n < 0 ? 0 : (size_t)n < sizeof text ? (size_t)n : sizeof text - 1;
    const char *copy = plmi_arena_text(&plan->head.arena, text, length);
    return copy == NULL ? "" : copy;
}

void plmi_plan_fact(struct plmi_table_plan *plan, const char *what, const char *found, const char *evidence)
{
    if (plmi_array_grow((void **)&plan->facts, &plan->fact_capacity, plan->verdict.fact_count, sizeof *plan->facts)) {
        plan->facts[plan->verdict.fact_count++] = (struct plm_verdict_fact){what, found, evidence};
    }
}

void plmi_plan_evidence_add(struct plmi_table_plan *plan, struct plmi_column *column, const char *why)
{
    const char *before = column->evidence;
    column->evidence = plmi_plan_text(plan, "%s%s%s", before, before[0] == '\0' ? "" : "; ", why);
}

/* A value with its unit behind it, in the unit of the column; as it stands where the column has none yet. */
static bool number_with_unit(const struct plmi_column *column, const char *cell, size_t n, double *value)
{
    struct plmi_cell_unit split;
    if (!plmi_cell_unit_split(&split, cell, n) || !plmi_number_parse(cell, split.value_n, column->point, value)) {
        return false;
    }
    const struct plmi_unit *unit = plmi_column_unit_of(column->meaning, split.word);
    if (unit == NULL) {
        return false;
    }
    if (column->unit != NULL && column->unit != unit) {
        *value = plmi_unit_convert(unit, *value) * column->unit->divisor / column->unit->factor - column->unit->shift;
    }
    return true;
}

bool plmi_column_number(const struct plmi_column *column, const char *cell, size_t n, double *value)
{
    return plmi_number_parse(cell, n, column->point, value) || number_with_unit(column, cell, n, value);
}

const struct plmi_unit *plmi_column_unit_of(enum plmi_meaning meaning, const char *word)
{
    enum plmi_dimension dimension = plmi_meaning_info(meaning)->dimension;
    return dimension == PLMI_DIMENSION_NONE ? NULL : plmi_unit_of_word(word, dimension);
}

double plmi_plan_depth_m(const struct plmi_table_plan *plan, const struct plmi_column *column, double value)
{
    double ours = plmi_unit_convert(column->unit, value);
    if (column->meaning == PLMI_MEANING_PRESSURE) {
        return (ours - plan->surface_bar) / plan->bar_per_m;
    }
    return plan->depth_down ? -ours : ours;
}

double plmi_plan_row_depth_m(const struct plmi_table_plan *plan, const struct plmi_column *column, size_t row)
{
    double value;
    const char *cell = plmi_head_cell(&plan->head.rows[row], column->index);
    return plmi_column_number(column, cell, strlen(cell), &value) ? plmi_plan_depth_m(plan, column, value)
                                                                  : (double)NAN;
}
