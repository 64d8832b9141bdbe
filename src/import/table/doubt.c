/*
 * Holds names of columns against what stands below them. Must not choose between columns.
 * SPDX-License-Identifier: MIT
 */
#include "import/table/doubt.h"

#include <string.h>

#include "import/format/breathing.h"
#include "import/table/cell_unit.h"

static void leave_unread(struct plmi_table_plan *plan, struct plmi_column *column, struct plmi_diags *diags,
                         const char *why)
{
    column->read = false;
    column->evidence = why;
    plmi_diags_add(diags, PLM_LEVEL_NOTE, PLM_DIAG_COLUMN_GUESSED, plmi_plan_header_line(plan), 0,
                   "column %zu, '%s', might be %s, but %s; not read", column->index + 1, column->header,
                   plmi_meaning_info(column->meaning)->name, why);
}

static const char *cell_at(const struct plmi_table_plan *plan, const struct plmi_column *column, size_t row)
{
    return plmi_head_cell(&plan->head.rows[row], column->index);
}

/* What the cells of a column say of its unit. */
struct named_units {
    const struct plmi_unit *unit; /* the first that the column can have, or NULL */
    char other[32];               /* the first that it cannot have */
    size_t cells, others;         /* that hold something; whose unit it cannot have */
};

static struct named_units units_in_cells(const struct plmi_table_plan *plan, const struct plmi_column *column)
{
    struct named_units named = {0};
    for (size_t i = plan->head.data; i < plan->head.count; i++) {
        const char *cell = cell_at(plan, column, i);
        struct plmi_cell_unit split;
        named.cells += !plmi_cell_empty(cell);
        if (!plmi_cell_unit_split(&split, cell, strlen(cell))) {
            continue;
        }
        const struct plmi_unit *unit = plmi_column_unit_of(column->meaning, split.word);
        if (unit == NULL && column->meaning == PLMI_MEANING_DEPTH) {
            unit = plmi_column_unit_of(PLMI_MEANING_PRESSURE, split.word);
        }
        named.unit = named.unit == NULL ? unit : named.unit;
        if (unit == NULL && named.others++ == 0) {
            memcpy(named.other, split.word, sizeof named.other);
        }
    }
    return named;
}

static void take_units(struct plmi_table_plan *plan, struct plmi_column *column, struct plmi_diags *diags)
{
    struct named_units named = units_in_cells(plan, column);
    if (named.others > 0 && named.others * 2 >= named.cells) {
        leave_unread(plan, column, diags, plmi_plan_text(plan, "its cells are in %s", named.other));
    } else if (named.unit != NULL && column->unit == NULL) {
        column->unit = named.unit;
        plmi_plan_evidence_add(plan, column, plmi_plan_text(plan, "its cells name the unit, %s", named.unit->name));
        if (column->meaning == PLMI_MEANING_DEPTH && plmi_unit_dimension(named.unit) == PLMI_DIMENSION_PRESSURE) {
            column->meaning = PLMI_MEANING_PRESSURE;
        }
    }
}

static bool fits(enum plmi_meaning meaning, const char *cell)
{
    enum plmi_look look = plmi_cell_look(cell);
    double o2_frac, he_frac;
    enum plm_mode mode;
    bool apnoe;
    switch (meaning) {
    case PLMI_MEANING_GAS: return plmi_mix_name_parse(cell, &o2_frac, &he_frac);
    case PLMI_MEANING_MODE: return plmi_mode_parse(cell, &mode, &apnoe);
    case PLMI_MEANING_TIME:
    case PLMI_MEANING_DATE:
    case PLMI_MEANING_CLOCK:
    case PLMI_MEANING_DATE_CLOCK: return look != PLMI_LOOK_TEXT;
    default: return look == PLMI_LOOK_NUMBER;
    }
}

/* A name in part is borne out by most of its cells; a mix, which decides most, by all. */
static void check_cells(struct plmi_table_plan *plan, struct plmi_column *column, struct plmi_diags *diags)
{
    size_t filled = 0, wrong = 0;
    const char *odd = "";
    for (size_t i = plan->head.data; i < plan->head.count; i++) {
        const char *cell = cell_at(plan, column, i);
        bool empty = plmi_cell_empty(cell);
        filled += !empty;
        if (!empty && !fits(column->meaning, cell) && wrong++ == 0) {
            odd = cell;
        }
    }
    if (wrong > 0 && (column->meaning == PLMI_MEANING_GAS || wrong * 2 > filled)) {
        leave_unread(plan, column, diags, plmi_plan_text(plan, "'%.40s' is none", odd));
    }
}

/* Helium tells a mix where oxygen does too. */
static void check_helium(struct plmi_table_plan *plan, struct plmi_diags *diags)
{
    struct plmi_column *helium = NULL;
    bool oxygen = false;
    for (size_t i = 0; i < plan->count; i++) {
        struct plmi_column *column = &plan->columns[i];
        oxygen =
            oxygen || (column->read && (column->meaning == PLMI_MEANING_O2 || column->meaning == PLMI_MEANING_GAS));
        helium = column->read && column->named_in_part && column->meaning == PLMI_MEANING_HE ? column : helium;
    }
    if (helium != NULL && !oxygen) {
        leave_unread(plan, helium, diags, "no column tells oxygen");
    }
}

void plmi_plan_doubt(struct plmi_table_plan *plan, struct plmi_diags *diags)
{
    for (size_t i = 0; i < plan->count; i++) {
        struct plmi_column *column = &plan->columns[i];
        if (column->read && column->unknown_unit[0] != '\0') {
            leave_unread(plan, column, diags,
                         plmi_plan_text(plan, "its unit, %s, is none of that", column->unknown_unit));
        }
        if (column->read && plmi_meaning_info(column->meaning)->dimension != PLMI_DIMENSION_NONE) {
            take_units(plan, column, diags);
        }
        if (column->read && column->named_in_part) {
            check_cells(plan, column, diags);
        }
    }
    check_helium(plan, diags);
}
