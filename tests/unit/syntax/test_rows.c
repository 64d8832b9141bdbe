/*
 * Rows and cells, their places, encodings and bounds.
 * Sources: RFC 4180 for quoting; the rest is our contract in syntax/rows.h.
 * SPDX-License-Identifier: MIT
 */
#include <check.h>
#include <stdlib.h>
#include <string.h>

#include "syntax/rows.h"
#include "unit/diag_list.h"

struct table {
    struct diag_list told;
    struct plm_diag_sink sink;
    struct plm_rules rules;
    struct plmi_diags diags;
    struct plm_source *source;
    struct plmi_rows *rows;
};

static void open_table(struct table *table, const char *bytes, size_t count, char separator)
{
    table->sink = diag_list_sink(&table->told);
    plmi_diags_init(&table->diags, &table->sink, "t.csv");
    struct plmi_dialect dialect = {separator, '"'};
    ck_assert_int_eq(plm_source_open_memory(&table->source, bytes, count, "t.csv", &table->rules, &table->sink),
                     PLM_STATUS_OK);
    ck_assert_int_eq(plmi_rows_open(&table->rows, table->source, &dialect, &table->rules, &table->diags),
                     PLM_STATUS_OK);
}

static void close_table(struct table *table)
{
    plmi_rows_free(table->rows);
    plm_source_free(table->source);
}

/* All rows as "line: cell@column|cell@column;", and the last status. */
static enum plm_status read_all(struct table *table, struct plmi_text *out)
{
    struct plmi_row row;
    enum plm_status status = PLM_STATUS_OK;
    while ((status = plmi_rows_next(table->rows, &row)) == PLM_STATUS_OK) {
        plmi_text_printf(out, "%ld:", row.line);
        for (size_t i = 0; i < row.count; i++) {
            ck_assert_uint_eq(strlen(row.cells[i]), row.lengths[i]);
            plmi_text_printf(out, "%s%s@%ld", i == 0 ? "" : "|", row.cells[i], row.columns[i]);
        }
        plmi_text_puts(out, ";");
    }
    return status;
}

static void check_rows(const char *bytes, size_t count, char separator, const char *want)
{
    struct table table = {.rules = plm_rules_default()};
    struct plmi_text out;
    plmi_text_init(&out);
    open_table(&table, bytes, count, separator);
    ck_assert_int_eq(read_all(&table, &out), PLM_STATUS_END);
    ck_assert_str_eq(out.bytes == NULL ? "" : out.bytes, want);
    struct plmi_row row;
    ck_assert_int_eq(plmi_rows_next(table.rows, &row), PLM_STATUS_END);
    plmi_text_free(&out);
    close_table(&table);
}

#define CHECK_ROWS(bytes, separator, want) check_rows(bytes, sizeof(bytes) - 1, separator, want)

START_TEST(plain_tables)
{
    CHECK_ROWS("", ',', "");
    CHECK_ROWS("\n\n  \n", ',', "");
    CHECK_ROWS("a", ',', "1:a@1;");
    CHECK_ROWS("a,b\n1,22\n", ',', "1:a@1|b@3;2:1@1|22@3;");
    CHECK_ROWS("a;b\r\n1;2\r\n", ';', "1:a@1|b@3;2:1@1|2@3;");
    CHECK_ROWS("a\tb\r1\t\t2\r", '\t', "1:a@1|b@3;2:1@1|@3|2@4;");
    CHECK_ROWS("\ta\t\n", '\t', "1:@1|a@2|@4;");
    CHECK_ROWS("a|b", '|', "1:a@1|b@3;");
    CHECK_ROWS("a,b,\n", ',', "1:a@1|b@3|@5;");
    CHECK_ROWS("a,b,", ',', "1:a@1|b@3|@5;");
    CHECK_ROWS(",\n", ',', "1:@1|@2;");
}
END_TEST

START_TEST(blank_lines_count_but_are_no_rows)
{
    CHECK_ROWS("\n\na\n\r\n \n  b, c \n", ',', "3:a@1;6:b@3|c@6;");
    CHECK_ROWS("a\r\r\nb", ',', "1:a@1;3:b@1;");
}
END_TEST

START_TEST(quotes)
{
    CHECK_ROWS("\"a,b\",c\n", ',', "1:a,b@1|c@7;");
    CHECK_ROWS("\"say \"\"hi\"\"\",2\n", ',', "1:say \"hi\"@1|2@14;");
    CHECK_ROWS("\"two\nlines\",x\ny\n", ',', "1:two\nlines@1|x@8;3:y@1;");
    CHECK_ROWS("\"two\r\nlines\",x\r\ny\r\n", ',', "1:two\r\nlines@1|x@8;3:y@1;");
    CHECK_ROWS("\"\"\n", ',', "1:@1;");
    CHECK_ROWS("5\" hose,x\n", ',', "1:5\" hose@1|x@9;");
}
END_TEST

START_TEST(what_our_tables_escape_is_taken_back)
{
    check_rows("\"'=x\",'-2\n\\u{202e}a,\\u{5c}u{9}\n", 31, ',',
               "1:=x@1|-2@7;2:\xe2\x80\xae"
               "a@1|\\u{9}@11;");
}
END_TEST

START_TEST(an_open_quote_is_told_where_it_stands)
{
    struct table table = {.rules = plm_rules_default()};
    struct plmi_text out;
    plmi_text_init(&out);
    static const char bytes[] = "a,b\n1,\"2\n3,4\n5,6\n";
    open_table(&table, bytes, sizeof bytes - 1, ',');
    ck_assert_int_eq(read_all(&table, &out), PLM_STATUS_INPUT);
    ck_assert_str_eq(out.bytes, "1:a@1|b@3;");
    ck_assert_int_eq(table.told.count, 1);
    ck_assert(diag_list_has(&table.told, "t.csv:2:3: error: a quote is opened"));
    plmi_text_free(&out);
    close_table(&table);
}
END_TEST

START_TEST(encodings)
{
    CHECK_ROWS("\xef\xbb\xbf"
               "a,b\n",
               ',', "1:a@1|b@3;");
    CHECK_ROWS("\xff\xfe"
               "a\0,\0\xe9\0\n\0",
               ',', "1:a@1|\xc3\xa9@3;");
    CHECK_ROWS("\xfe\xff"
               "\0a\0,\0\xe9\0\n",
               ',', "1:a@1|\xc3\xa9@3;");
    CHECK_ROWS("a\0,\0b\0\n\0", ',', "1:a@1|b@3;");
    CHECK_ROWS("\0a\0,\0b\0\n", ',', "1:a@1|b@3;");
    CHECK_ROWS("Temp \xc2\xb0"
               "C,x\n",
               ',',
               "1:Temp \xc2\xb0"
               "C@1|x@10;");
    CHECK_ROWS("Temp \xb0"
               "C,x\n",
               ',',
               "1:Temp \xc2\xb0"
               "C@1|x@10;"); /* Latin-1 */
    CHECK_ROWS("\x80"
               "5,x\n",
               ',',
               "1:\xe2\x82\xac"
               "5@1|x@6;"); /* Windows-1252: euro */
    CHECK_ROWS("\xff\xfe"
               "=\xd8\x0a\xdc\n\0",
               ',', "1:\xf0\x9f\x90\x8a@1;"); /* a pair of surrogates */
}
END_TEST

START_TEST(what_is_no_text_is_replaced_and_told)
{
    static const struct {
        const char *bytes;
        size_t count;
        const char *want;
        const char *told;
    } cases[] = {
        {"a,b\n1\0,2\n", 9, "1:a@1|b@3;2:1\xef\xbf\xbd@1|2@6;", "t.csv:2: warning: byte 0x00"},
        {"\xc3\xa9,b\n1,\xff\n", 9, "1:\xc3\xa9@1|b@4;2:1@1|\xc3\xbf@3;", "the text is WINDOWS-1252"},
        {"a\n\x1b[1m\n", 7, "1:a@1;2:\xef\xbf\xbd[1m@1;", "t.csv:2: warning: byte 0x1b"},
        {"\xff\xfe"
         "a\0\0\xdc\n\0",
         8, "1:a\xef\xbf\xbd@1;", "t.csv:1: warning: byte 0x00"},
        {"\xff\xfe"
         "a\0\n\0b",
         7, "1:a@1;2:\xef\xbf\xbd@1;", "t.csv:2: warning: byte 0x62"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct table table = {.rules = plm_rules_default()};
        struct plmi_text out;
        plmi_text_init(&out);
        open_table(&table, cases[i].bytes, cases[i].count, ',');
        ck_assert_int_eq(read_all(&table, &out), PLM_STATUS_END);
        if (i != 1) {
            ck_assert_str_eq(out.bytes, cases[i].want);
        }
        ck_assert_msg(diag_list_has(&table.told, cases[i].told), "%zu: %s", i, table.told.lines[0]);
        plmi_text_free(&out);
        close_table(&table);
    }
}
END_TEST

/* A table whose first bytes beyond ASCII come late and are cut by the decoder's piece. */
START_TEST(utf8_is_found_behind_the_first_piece)
{
    size_t before = 65535;
    char *bytes = malloc(before + 16);
    ck_assert_ptr_nonnull(bytes);
    memset(bytes, 'x', before);
    for (size_t i = 99; i < before; i += 100) {
        bytes[i] = '\n';
    }
    memcpy(bytes + before, "\xc2\xb0,1\n", 6);
    struct table table = {.rules = plm_rules_default()};
    open_table(&table, bytes, before + 5, ',');
    struct plmi_row row;
    struct plmi_row last = {0};
    char cell[200] = "";
    while (plmi_rows_next(table.rows, &row) == PLM_STATUS_OK) {
        last = row;
        (void)memcpy(cell, row.cells[0], row.lengths[0] + 1);
    }
    ck_assert_uint_eq(last.count, 2);
    ck_assert_str_eq(cell + strlen(cell) - 3, "x\xc2\xb0");
    ck_assert_int_eq(table.told.count, 0);
    close_table(&table);
    free(bytes);
}
END_TEST

static void check_limit(const char *bytes, size_t count, const char *key, const char *value, const char *told)
{
    struct table table = {.rules = plm_rules_default()};
    ck_assert_int_eq(plm_rules_set(&table.rules, key, value), PLM_STATUS_OK);
    struct plmi_text out;
    plmi_text_init(&out);
    open_table(&table, bytes, count, ',');
    ck_assert_int_eq(read_all(&table, &out), PLM_STATUS_LIMIT);
    ck_assert_int_eq(table.told.count, 1);
    ck_assert_msg(diag_list_has(&table.told, told), "%s", table.told.lines[0]);
    plmi_text_free(&out);
    close_table(&table);
}

START_TEST(bounds)
{
    check_limit("a,b\n1,2\n1,2,3\n", 14, "columns_max", "2",
                "t.csv:3:5: error: a row has more columns than 2 (rule columns_max)");
    check_limit("a\nb\nc\n", 6, "rows_max", "2", "t.csv:3:1: error: the table has more rows than 2 (rule rows_max)");
    check_limit("a\n12345678901234567\n", 20, "cell_max_bytes", "16",
                "t.csv:2:1: error: a cell is longer than 16 (rule cell_max_bytes)");
    size_t count = 10000000;
    char *line = malloc(count);
    ck_assert_ptr_nonnull(line);
    memset(line, '7', count);
    check_limit(line, count, "cell_max_bytes", "65536", "t.csv:1:1: error: a cell is longer than 65536");
    for (size_t i = 1; i < count; i += 2) {
        line[i] = ',';
    }
    check_limit(line, count, "columns_max", "256", "t.csv:1:513: error: a row has more columns than 256");
    line[0] = '"';
    check_limit(line, count, "cell_max_bytes", "65536", "t.csv:1:1: error: a cell is longer than 65536");
    free(line);
}
END_TEST

int main(void)
{
    TCase *tests = tcase_create("rows");
    tcase_set_timeout(tests, 60);
    tcase_add_test(tests, plain_tables);
    tcase_add_test(tests, blank_lines_count_but_are_no_rows);
    tcase_add_test(tests, quotes);
    tcase_add_test(tests, what_our_tables_escape_is_taken_back);
    tcase_add_test(tests, an_open_quote_is_told_where_it_stands);
    tcase_add_test(tests, encodings);
    tcase_add_test(tests, what_is_no_text_is_replaced_and_told);
    tcase_add_test(tests, utf8_is_found_behind_the_first_piece);
    tcase_add_test(tests, bounds);
    Suite *suite = suite_create("syntax");
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
