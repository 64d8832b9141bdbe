/*
 * Separator and header row of a table: each separator is tried on the first rows, the one that yields an even table of
 * clean cells wins.
 * SPDX-License-Identifier: MIT
 */
#include "import/table/head.h"

#include <stdlib.h>
#include <string.h>

#include "base/utf8.h"
#include "import/table/cell.h"

/* Rows kept at most, bytes tried for the separator, bytes looked at in the end, rows looked through for a header. */
#define ROWS_KEPT     2000
#define TRIED_BYTES   4096
#define HEAD_BYTES    32768
#define HEADER_WITHIN 200

const char *plmi_head_cell(const struct plmi_head_row *row, size_t column)
{
    return column < row->count ? row->cells[column] : "";
}

/* Keeps a copy of a row; false without memory. */
static bool keep_row(struct plmi_table_head *head, const struct plmi_row *row)
{
    if (!plmi_array_grow((void **)&head->rows, &head->capacity, head->count, sizeof *head->rows)) {
        return false;
    }
    const char **cells = plmi_arena_get(&head->arena, (row->count + 1) * sizeof *cells);
    if (cells == NULL) {
        return false;
    }
    for (size_t i = 0; i < row->count; i++) {
        cells[i] = plmi_arena_text(&head->arena, row->cells[i], row->lengths[i]);
        if (cells[i] == NULL) {
            return false;
        }
    }
    head->rows[head->count++] = (struct plmi_head_row){row->count, cells, row->line};
    return true;
}

/* Splits bytes with one separator. The last row may be cut and is left out where the input goes on. False without
 * memory. */
static bool split(struct plmi_table_head *head, const unsigned char *bytes, size_t n, const struct plm_rules *rules)
{
    struct plmi_diags quiet;
    struct plm_source *memory = NULL;
    struct plmi_rows *rows = NULL;
    bool enough = true;
    plmi_diags_init(&quiet, NULL, "");
    if (plm_source_open_memory(&memory, bytes, n, "", rules, NULL) != PLM_STATUS_OK) {
        return false;
    }
    enum plm_status status = plmi_rows_open(&rows, memory, &head->dialect, rules, &quiet);
    while (status == PLM_STATUS_OK && enough && head->count < ROWS_KEPT) {
        struct plmi_row row;
        status = plmi_rows_next(rows, &row);
        enough = status != PLM_STATUS_OK || keep_row(head, &row);
    }
    plmi_rows_free(rows);
    plm_source_free(memory);
    if (head->cut && head->count > 1) {
        head->count--;
    }
    return enough && status != PLM_STATUS_MEMORY;
}

void plmi_table_head_free(struct plmi_table_head *head)
{
    free(head->rows);
    plmi_arena_free(&head->arena);
    *head = (struct plmi_table_head){0};
}

static void head_clear(struct plmi_table_head *head)
{
    plmi_table_head_free(head);
    plmi_arena_init(&head->arena);
    head->dialect.quote = '"';
}

/* How many cells the rows mostly have, looking from the end, where data is. */
static size_t usual_width(const struct plmi_table_head *head)
{
    size_t best = 0;
    size_t votes = 0;
    for (size_t i = head->count; i > 0; i--) { /* majority vote */
        size_t width = head->rows[i - 1].count;
        if (votes == 0) {
            best = width;
        }
        votes = width == best ? votes + 1 : votes - 1;
    }
    return best;
}

/* Clean cells in rows of the usual width; more means a better separator. */
static double evenness(const struct plmi_table_head *head)
{
    size_t width = usual_width(head);
    size_t clean = 0;
    size_t cells = 0;
    size_t even = 0;
    for (size_t i = 0; i < head->count; i++) {
        const struct plmi_head_row *row = &head->rows[i];
        even += row->count == width;
        for (size_t c = 0; c < row->count; c++) {
            cells++;
            clean += strpbrk(row->cells[c], ",;\t|") == NULL || plmi_cell_look(row->cells[c]) != PLMI_LOOK_TEXT;
        }
    }
    if (cells == 0 || width < 2) {
        return 0;
    }
    return (double)clean / (double)cells * (double)even / (double)head->count *
           (1.0 + 0.01 * (double)(width < 20 ? width : 20));
}

/* Number of cells of a row that a rule understands; 0 when a cell is a number (then it is data). */
static int understood(const struct plmi_head_row *row)
{
    int known = 0;
    for (size_t i = 0; i < row->count; i++) {
        enum plmi_look look = plmi_cell_look(row->cells[i]);
        if (look != PLMI_LOOK_TEXT && look != PLMI_LOOK_EMPTY) {
            return 0;
        }
        struct plmi_header_cell cell = plmi_header_read(row->cells[i]);
        bool core = cell.meaning == PLMI_MEANING_DEPTH || cell.meaning == PLMI_MEANING_TIME ||
                    cell.meaning == PLMI_MEANING_PRESSURE;
        known += cell.meaning == PLMI_MEANING_UNKNOWN || cell.unknown_words > 1 ? 0
                 : core && cell.unknown_words == 0                              ? 3
                                                                                : 1;
    }
    return known;
}

/* A row that can be data: it starts with, or mostly holds, numbers, dates or clocks. */
static bool is_data(const struct plmi_head_row *row)
{
    size_t values = 0;
    size_t texts = 0;
    for (size_t i = 0; i < row->count; i++) {
        enum plmi_look look = plmi_cell_look(row->cells[i]);
        values += look != PLMI_LOOK_TEXT && look != PLMI_LOOK_EMPTY;
        texts += look == PLMI_LOOK_TEXT;
    }
    return values > 0 && values >= texts;
}

static bool is_comment(const struct plmi_head_row *row)
{
    return row->count == 0 || row->cells[0][0] == '#' || strncmp(row->cells[0], "//", 2) == 0;
}

static bool is_units(const struct plmi_head_row *row)
{
    size_t units = 0;
    for (size_t i = 0; i < row->count; i++) {
        if (plmi_header_is_unit(row->cells[i]) || row->cells[i][0] == '(' || row->cells[i][0] == '[') {
            units++;
        } else if (!plmi_cell_empty(row->cells[i]) && plmi_header_read(row->cells[i]).form == PLMI_TIME_FORM_UNKNOWN) {
            return false;
        }
    }
    return units > 0;
}

static void find_header(struct plmi_table_head *head, bool headerless)
{
    int best = 0;
    size_t width = usual_width(head);
    head->header = PLMI_NO_ROW;
    head->units = PLMI_NO_ROW;
    for (size_t i = 0; i < head->count && i < HEADER_WITHIN; i++) {
        const struct plmi_head_row *row = &head->rows[i];
        bool preamble = row->count < 2 && width > 1;
        int known = preamble || is_comment(row) ? 0 : understood(row) + (row->count == width ? 1 : 0);
        if (known > 1 && known > best) {
            best = known;
            head->header = i;
        }
    }
    head->data = head->header == PLMI_NO_ROW ? 0 : head->header + 1;
    if (head->header != PLMI_NO_ROW && head->data < head->count && is_units(&head->rows[head->data])) {
        head->units = head->data++;
    }
    if (head->header == PLMI_NO_ROW && headerless) {
        while (head->data < head->count && (is_comment(&head->rows[head->data]) || !is_data(&head->rows[head->data]))) {
            head->data++;
        }
    }
}

static const char *encoding_of(const unsigned char *bytes, size_t n)
{
    if (n >= 2 && ((bytes[0] == 0xff && bytes[1] == 0xfe) || (bytes[0] == 0xfe && bytes[1] == 0xff))) {
        return "UTF-16 with a byte order mark";
    }
    if (n >= 3 && memcmp(bytes, "\xef\xbb\xbf", 3) == 0) {
        return "UTF-8 with a byte order mark";
    }
    bool ascii = true;
    for (size_t i = 0; i < n;) {
        size_t length = plmi_utf8_length((const char *)bytes + i, n - i);
        if (length == 0) {
            return n - i < 4 ? "UTF-8" : "Latin-1";
        }
        ascii = ascii && length == 1;
        if (bytes[i] == 0) {
            return "UTF-16";
        }
        i += length;
    }
    return ascii ? "ASCII" : "UTF-8";
}

/* The separator that parts the first bytes best; '\0' where none yields a table. */
static char best_separator(struct plmi_table_head *head, const unsigned char *bytes, size_t tried, size_t n,
                           const struct plm_rules *rules, bool *enough)
{
    static const char SEPARATORS[] = {',', ';', '\t', '|'};
    char best = '\0';
    double most = 0;
    for (size_t i = 0; i < sizeof SEPARATORS && *enough; i++) {
        head_clear(head);
        head->dialect.separator = SEPARATORS[i];
        head->cut = tried < n;
        *enough = split(head, bytes, tried, rules);
        double score = evenness(head);
        if (score > most) {
            most = score;
            best = SEPARATORS[i];
        }
    }
    return best;
}

enum plm_status plmi_table_head_read(struct plmi_table_head *head, struct plm_source *source,
                                     const struct plm_rules *rules, bool headerless, struct plmi_diags *diags)
{
    const unsigned char *bytes;
    size_t n;
    *head = (struct plmi_table_head){0};
    enum plm_status status = plm_source_peek(source, &bytes, &n);
    if (status != PLM_STATUS_OK && status != PLM_STATUS_END) {
        return status;
    }
    bool enough = true;
    char separator = best_separator(head, bytes, n < TRIED_BYTES ? n : TRIED_BYTES, n, rules, &enough);
    if (separator == '\0' && n > TRIED_BYTES) { /* a long preamble */
        separator = best_separator(head, bytes, n, n, rules, &enough);
    }
    head_clear(head);
    head->dialect.separator = separator == '\0' ? ',' : separator;
    head->cut = n > HEAD_BYTES;
    enough = enough && split(head, bytes, n < HEAD_BYTES ? n : HEAD_BYTES, rules);
    head->encoding = encoding_of(bytes, n);
    if (!enough) {
        return plmi_diags_no_memory(diags, 0, "for the first rows");
    }
    find_header(head, headerless);
    return PLM_STATUS_OK;
}
