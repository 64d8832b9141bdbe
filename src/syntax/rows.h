/*
 * Rows of a separated table, pulled one by one (libcsv inside). Knows no meaning of a cell.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_SYNTAX_ROWS_H
#define PLM_SYNTAX_ROWS_H

#include <plimsoll/rules.h>
#include <plimsoll/source.h>

#include "base/diags.h"

struct plmi_row {
    size_t count;             /* cells                                              */
    const char *const *cells; /* UTF-8, terminated, borrowed until the next _next   */
    const size_t *lengths;
    const long *columns; /* [from 1] byte column of each cell in its line      */
    long line;           /* [from 1] line on which the row begins              */
};

struct plmi_rows; /* opaque */

/* How the table is written. */
struct plmi_dialect {
    char separator;
    char quote;
};

/*
 * Reads the source from where it stands (text decoded to UTF-8: BOM, UTF-16, Latin-1 by evidence).
 * Returns: OK or an error that is reported.
 */
enum plm_status plmi_rows_open(struct plmi_rows **out, struct plm_source *source, const struct plmi_dialect *dialect,
                               const struct plm_rules *rules, struct plmi_diags *diags);
/* Next row, blank lines passed over. Returns: OK, END, or an error that is reported (LIMIT for cell, row, column
 * bounds). */
enum plm_status plmi_rows_next(struct plmi_rows *rows, struct plmi_row *row);
/* As plmi_decoder_partial. */
bool plmi_rows_partial(const struct plmi_rows *rows);
void plmi_rows_free(struct plmi_rows *rows);

#endif
