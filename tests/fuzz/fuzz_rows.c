/*
 * Fuzzes the decoder and the splitting of tables: cells are valid UTF-8, terminated, in rising places.
 * The first byte of an input chooses the separator. Must not fail without a diagnostic.
 * SPDX-License-Identifier: MIT
 */
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "base/utf8.h"
#include "syntax/rows.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void check(int holds)
{
    if (!holds) {
        abort();
    }
}

static void check_row(const struct plmi_row *row, long *line)
{
    check(row->count > 0 && row->line > *line);
    *line = row->line;
    for (size_t i = 0; i < row->count; i++) {
        check(strlen(row->cells[i]) == row->lengths[i] && row->columns[i] >= 1);
        for (size_t at = 0; at < row->lengths[i];) {
            size_t length = plmi_utf8_length(row->cells[i] + at, row->lengths[i] - at);
            check(length > 0);
            at += length;
        }
    }
}

static void count_error(void *context, const struct plm_diag *diag)
{
    *(int *)context += diag->level == PLM_LEVEL_ERROR ? 1 : 0;
}

static void read_rows(struct plm_source *source, char separator)
{
    int errors = 0;
    const struct plm_diag_sink sink = {count_error, &errors};
    struct plmi_diags diags = {&sink, "fuzz"};
    struct plm_rules rules = plm_rules_default();
    rules.cell_max_bytes = 1000;
    rules.columns_max = 50;
    struct plmi_dialect dialect = {separator, '"'};
    struct plmi_rows *rows = NULL;
    struct plmi_row row;
    long line = 0;
    enum plm_status status = plmi_rows_open(&rows, source, &dialect, &rules, &diags);
    while (status == PLM_STATUS_OK && (status = plmi_rows_next(rows, &row)) == PLM_STATUS_OK) {
        check_row(&row, &line);
    }
    check(status == PLM_STATUS_END || errors > 0);
    plmi_rows_free(rows);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    if (size == 0) {
        return 0;
    }
    struct plm_rules rules = plm_rules_default();
    struct plm_source *source = NULL;
    rules.file_max_mb = 2;
    if (plm_source_open_memory(&source, data + 1, size - 1, "fuzz", &rules, NULL) == PLM_STATUS_OK) {
        /* Damage of gzip is reported by the source, not here: plain bytes only. */
        if (size < 3 || data[1] != 0x1f || data[2] != 0x8b) {
            read_rows(source, ",;\t|"[data[0] % 4]);
        }
    }
    plm_source_free(source);
    return 0;
}
