/*
 * The first rows of a table, and how the table is written: separator, decimal point, header row. Found out from the
 * bytes alone.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_IMPORT_TABLE_HEAD_H
#define PLM_IMPORT_TABLE_HEAD_H

#include <plimsoll/import.h>

#include "base/arena.h"
#include "import/table/header.h"
#include "syntax/rows.h"

/* One row kept. */
struct plmi_head_row {
    size_t count;
    const char *const *cells;
    long line;
};

#define PLMI_NO_ROW ((size_t)-1)

struct plmi_table_head {
    struct plmi_arena arena;
    struct plmi_head_row *rows;
    size_t count, capacity;
    struct plmi_dialect dialect;
    const char *encoding; /* as shown */
    size_t header;        /* index of the header row; PLMI_NO_ROW: none */
    size_t units;         /* index of a row of units under it; PLMI_NO_ROW: none */
    size_t data;          /* index of the first row of data; count where there is none */
    bool cut;             /* the input goes on behind these rows */
};

/* Reads the head of the source without taking it. headerless: the caller names the columns. Returns: OK, MEMORY or IO,
 * INPUT (reported). */
enum plm_status plmi_table_head_read(struct plmi_table_head *head, struct plm_source *source,
                                     const struct plm_rules *rules, bool headerless, struct plmi_diags *diags);
void plmi_table_head_free(struct plmi_table_head *head);
/* The cell of a row, "" where the row is too short. */
const char *plmi_head_cell(const struct plmi_head_row *row, size_t column);

#endif
