/*
 * Rows of a separated table. libcsv splits; each cell is fed to it by itself, so that the place
 * where it begins is known. Must not give a cell a meaning.
 * SPDX-License-Identifier: MIT
 */
#include "syntax/rows.h"

#include <csv.h>
#include <stdlib.h>
#include <string.h>

#include "base/arena.h"
#include "syntax/decode.h"
#include "syntax/markup.h"

enum {
    CELL_BLOCK_BYTES = 4096,
    IN_FIELD = 2 /* libcsv's state inside a cell; quoted tells whether a quote opened it */
};

/* One cell of the row that is being read. */
struct cell {
    size_t offset, length;
    long column;
};

struct plmi_rows {
    struct csv_parser parser;
    struct plmi_decoder *decoder;
    struct plmi_diags *diags;
    unsigned char separator;
    size_t cell_max, columns_max;
    double rows_max, row_count;
    enum plm_status status; /* sticky when not OK                  */
    const char *piece;      /* decoded bytes, [at, end) left       */
    const char *piece_end;
    long line, column; /* of the next byte                    */
    bool after_cr;
    bool in_cell;                /* a byte of the next cell was fed     */
    long cell_line, cell_column; /* where that cell begins              */
    long row_line;
    bool row_done;
    struct plmi_text text; /* cells of the row, each with its NUL */
    struct cell *cells;
    size_t count, cells_capacity;
    size_t views_capacity; /* items in the three arrays below     */
    const char **views;
    size_t *lengths;
    long *columns;
};

static void fail_memory(struct plmi_rows *rows)
{
    (void)plmi_diags_no_memory(rows->diags, 0, "to read the table");
    rows->status = PLM_STATUS_MEMORY;
}

static void fail_limit(struct plmi_rows *rows, const char *what, double bound, const char *rule)
{
    plmi_diags_add(rows->diags, PLM_LEVEL_ERROR, PLM_DIAG_LIMIT, rows->cell_line, rows->cell_column,
                   "%s than %lld (rule %s); reading stops there", what, (long long)bound, rule);
    rows->status = PLM_STATUS_LIMIT;
}

enum plm_status plmi_rows_open(struct plmi_rows **out, struct plm_source *source, const struct plmi_dialect *dialect,
                               const struct plm_rules *rules, struct plmi_diags *diags)
{
    *out = NULL;
    struct plmi_rows *opened = calloc(1, sizeof *opened);
    if (opened == NULL) {
        return plmi_diags_no_memory(diags, 0, "to read the table");
    }
    opened->diags = diags;
    opened->separator = (unsigned char)dialect->separator;
    opened->cell_max = (size_t)rules->cell_max_bytes;
    opened->columns_max = (size_t)rules->columns_max;
    opened->rows_max = rules->rows_max;
    opened->line = 1;
    opened->column = 1;
    plmi_text_init(&opened->text);
    (void)csv_init(&opened->parser, 0);
    csv_set_delim(&opened->parser, opened->separator);
    csv_set_quote(&opened->parser, (unsigned char)dialect->quote);
    csv_set_blk_size(&opened->parser, CELL_BLOCK_BYTES);
    enum plm_status status = plmi_decoder_open(&opened->decoder, source, PLMI_TEXT_TABLE, diags);
    if (status != PLM_STATUS_OK) {
        plmi_rows_free(opened);
        return status;
    }
    *out = opened;
    return PLM_STATUS_OK;
}

static void on_cell(void *bytes, size_t count, void *context)
{
    struct plmi_rows *rows = context;
    if (rows->status != PLM_STATUS_OK) {
        return;
    }
    rows->in_cell = false;
    if (rows->count == rows->columns_max) {
        fail_limit(rows, "a row has more columns", (double)rows->columns_max, "columns_max");
        return;
    }
    if (count > rows->cell_max) {
        fail_limit(rows, "a cell is longer", (double)rows->cell_max, "cell_max_bytes");
        return;
    }
    void *cells = rows->cells;
    if (!plmi_array_grow(&cells, &rows->cells_capacity, rows->count, sizeof *rows->cells)) {
        fail_memory(rows);
        return;
    }
    rows->cells = cells;
    size_t offset = rows->text.count;
    plmi_text_add(&rows->text, bytes, count);
    if (!rows->text.failed) {
        count = plmi_csv_cell_read(rows->text.bytes + offset, count);
        rows->text.count = offset + count;
    }
    rows->cells[rows->count++] = (struct cell){offset, count, rows->cell_column};
    plmi_text_add(&rows->text, "", 1);
    if (rows->text.failed) {
        fail_memory(rows);
    }
}

static void on_row(int ending, void *context)
{
    struct plmi_rows *rows = context;
    (void)ending;
    rows->row_done = true;
}

static bool is_line_end(char c)
{
    return c == '\n' || c == '\r';
}

/* Where the next cell begins, if it does in these bytes. */
static void note_begin(struct plmi_rows *rows, const char *bytes, size_t count)
{
    size_t blank = 0;
    while (blank < count && (bytes[blank] == ' ' || bytes[blank] == '\t') &&
           (unsigned char)bytes[blank] != rows->separator) {
        blank++;
    }
    /* A line end is the end of an empty last cell, or of a blank line. */
    if (blank == count || (is_line_end(bytes[blank]) && rows->count == 0)) {
        return;
    }
    if (rows->count == 0) {
        rows->row_line = rows->line;
    }
    rows->in_cell = true;
    rows->cell_line = rows->line;
    rows->cell_column = rows->column + (long)blank;
}

/* Moves line and column over bytes of which only the last may end a line. */
static void pass(struct plmi_rows *rows, const char *bytes, size_t count)
{
    char last = bytes[count - 1];
    bool second = last == '\n' && count == 1 && rows->after_cr;
    rows->after_cr = last == '\r';
    rows->column += (long)count;
    if (is_line_end(last)) {
        rows->line += second ? 0 : 1;
        rows->column = 1;
    }
}

/* The next bytes up to a separator or line end, to libcsv. */
static void feed(struct plmi_rows *rows)
{
    const char *begin = rows->piece;
    const char *at = begin;
    while (at < rows->piece_end && (unsigned char)*at != rows->separator && !is_line_end(*at)) {
        at++;
    }
    at += at < rows->piece_end ? 1 : 0;
    size_t count = (size_t)(at - begin);
    rows->piece = at;
    if (!rows->in_cell) {
        note_begin(rows, begin, count);
    }
    if (csv_parse(&rows->parser, begin, count, on_cell, on_row, rows) != count) {
        fail_memory(rows);
    }
    pass(rows, begin, count);
    if (rows->status == PLM_STATUS_OK && rows->parser.entry_pos > rows->cell_max) {
        fail_limit(rows, "a cell is longer", (double)rows->cell_max, "cell_max_bytes");
    }
}

/* The end of the text ends the last row. */
static void finish(struct plmi_rows *rows)
{
    if (rows->parser.pstate == IN_FIELD && rows->parser.quoted) {
        plmi_diags_add(rows->diags, PLM_LEVEL_ERROR, PLM_DIAG_CSV_SYNTAX, rows->cell_line, rows->cell_column,
                       "a quote is opened here and not closed; what follows is not read");
        rows->status = PLM_STATUS_INPUT;
        return;
    }
    if (rows->count > 0 && !rows->in_cell) {
        rows->cell_line = rows->line;
        rows->cell_column = rows->column;
    }
    if (csv_fini(&rows->parser, on_cell, on_row, rows) != 0) {
        fail_memory(rows);
    }
    if (rows->status == PLM_STATUS_OK && !rows->row_done) {
        rows->status = PLM_STATUS_END;
    }
}

static void refill(struct plmi_rows *rows)
{
    size_t count = 0;
    enum plm_status status = plmi_decoder_next(rows->decoder, &rows->piece, &count);
    if (status == PLM_STATUS_END) {
        finish(rows);
        return;
    }
    rows->status = status;
    rows->piece_end = status == PLM_STATUS_OK ? rows->piece + count : rows->piece;
}

/* Room for the three arrays that the caller sees. */
static bool reserve_views(struct plmi_rows *rows)
{
    if (rows->count <= rows->views_capacity) {
        return true;
    }
    size_t wanted = rows->cells_capacity;
    const char **views = realloc(rows->views, wanted * sizeof *views);
    rows->views = views != NULL ? views : rows->views;
    size_t *lengths = realloc(rows->lengths, wanted * sizeof *lengths);
    rows->lengths = lengths != NULL ? lengths : rows->lengths;
    long *columns = realloc(rows->columns, wanted * sizeof *columns);
    rows->columns = columns != NULL ? columns : rows->columns;
    if (views == NULL || lengths == NULL || columns == NULL) {
        fail_memory(rows);
        return false;
    }
    rows->views_capacity = wanted;
    return true;
}

static void deliver(struct plmi_rows *rows, struct plmi_row *row)
{
    for (size_t i = 0; i < rows->count; i++) {
        rows->views[i] = rows->text.bytes + rows->cells[i].offset;
        rows->lengths[i] = rows->cells[i].length;
        rows->columns[i] = rows->cells[i].column;
    }
    *row = (struct plmi_row){rows->count, rows->views, rows->lengths, rows->columns, rows->row_line};
}

enum plm_status plmi_rows_next(struct plmi_rows *rows, struct plmi_row *row)
{
    *row = (struct plmi_row){0, NULL, NULL, NULL, 0};
    rows->row_done = false;
    rows->count = 0;
    plmi_text_clear(&rows->text);
    while (rows->status == PLM_STATUS_OK && !rows->row_done) {
        if (rows->piece == rows->piece_end) {
            refill(rows);
        } else {
            feed(rows);
        }
    }
    if (rows->status == PLM_STATUS_OK && ++rows->row_count > rows->rows_max) {
        fail_limit(rows, "the table has more rows", rows->rows_max, "rows_max");
    }
    if (rows->status == PLM_STATUS_OK && reserve_views(rows)) {
        deliver(rows, row);
    }
    return rows->status;
}

bool plmi_rows_partial(const struct plmi_rows *rows)
{
    return plmi_decoder_partial(rows->decoder);
}

void plmi_rows_free(struct plmi_rows *rows)
{
    if (rows == NULL) {
        return;
    }
    csv_free(&rows->parser);
    plmi_decoder_free(rows->decoder);
    plmi_text_free(&rows->text);
    free(rows->cells);
    free(rows->views);
    free(rows->lengths);
    free(rows->columns);
    free(rows);
}
