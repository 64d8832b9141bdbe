/*
 * Any text that a log can hold goes into a cell of a table or a line of a card and comes back as it was; on the way it
 * steers nothing and is no formula. Texts are put together from pieces that hurt. Source of what may not be written:
 * test_plain.c and test_markup.c.
 * SPDX-License-Identifier: MIT
 */
#include <stdio.h>
#include <string.h>

#include <plimsoll/card.h>

#include "base/plain.h"
#include "support/memory_sink.h"
#include "support/random.h"
#include "support/suite.h"
#include "syntax/markup.h"
#include "syntax/rows.h"

#define SEEDS 3000

static const char *const PIECES[] = {
    "'",
    "''",
    "=",
    "+",
    "-",
    "@",
    "\\",
    "\\u{",
    "\\u{5c}",
    "\\u{a}",
    "\\u{3b}",
    "}",
    "\"",
    ",",
    ";",
    " ; ",
    "a",
    "B1",
    " ",
    "\t",
    "\n",
    "\r\n",
    "\x7f",
    "\xc2\x85",
    "\xe2\x80\xae",
    "\xe2\x80\xa8",
    "\xd8\x9c",
    "\xc3\xa9",
    "\xef\xbc\x9d",
    "\xe6\xb5\xb7",
    "#",
    "[",
    "]",
    ":",
    "e\xcc\x81",
    "u{",
};

static const struct plm_diag_sink NONE = {NULL, NULL};

static size_t below(struct seeded *seeded, size_t count)
{
    return (size_t)(seeded_uniform(seeded) * (double)count);
}

static void make(struct seeded *seeded, char text[80])
{
    text[0] = '\0';
    for (size_t left = 1 + below(seeded, 7), n = 0; left > 0; left--) {
        const char *piece = PIECES[below(seeded, sizeof PIECES / sizeof PIECES[0])];
        memcpy(text + n, piece, strlen(piece) + 1);
        n += strlen(piece);
    }
}

static void check_cell(const char *text, struct plmi_rows *rows)
{
    struct plmi_row row;
    ck_assert_int_eq(plmi_rows_next(rows, &row), PLM_STATUS_OK);
    ck_assert_uint_eq(row.count, 3);
    ck_assert_msg(strcmp(row.cells[1], text) == 0, "'%s' came back as '%s'", text, row.cells[1]);
}

START_TEST(cells_come_back)
{
    const struct plm_rules rules = plm_rules_default();
    const struct plmi_dialect dialect = {',', '"'};
    struct plmi_diags diags;
    struct plm_source *source;
    struct plmi_rows *rows;
    struct plmi_text table;
    struct seeded seeded = {1};
    char text[80];
    plmi_text_init(&table);
    for (int i = 0; i < SEEDS; i++) {
        make(&seeded, text);
        size_t from = table.count + 2;
        plmi_text_puts(&table, "1,");
        plmi_csv_cell(&table, text);
        ck_assert_uint_eq(plmi_plain_length(table.bytes + from, table.count - from), table.count - from);
        const char *first = table.bytes + from + (table.bytes[from] == '"');
        ck_assert_msg(strchr("=+-@", *first) == NULL || *first == '\0', "%s", table.bytes + from);
        plmi_text_puts(&table, ",2\n");
    }
    plmi_diags_init(&diags, NULL, "t.csv");
    ck_assert_int_eq(plm_source_open_memory(&source, table.bytes, table.count, "t.csv", &rules, &NONE), PLM_STATUS_OK);
    ck_assert_int_eq(plmi_rows_open(&rows, source, &dialect, &rules, &diags), PLM_STATUS_OK);
    seeded = (struct seeded){1};
    for (int i = 0; i < SEEDS; i++) {
        make(&seeded, text);
        check_cell(text, rows);
    }
    plmi_rows_free(rows);
    plm_source_free(source);
    plmi_text_free(&table);
}
END_TEST

/* Blanks at the ends are no part of a value in INI. */
static void check_card(const char *text)
{
    const struct plm_rules rules = plm_rules_default();
    struct plm_dive_info info = {.diver = text, .surface_bar = 0, .altitude_m = -1000, .water_kg_m3 = 0};
    struct plm_source *source;
    struct plm_card *card;
    struct plmi_text page;
    plmi_text_init(&page);
    struct plm_sink sink = memory_sink(&page);
    ck_assert_int_eq(plm_card_write(&info, NULL, &sink), PLM_STATUS_OK);
    ck_assert_int_eq(plm_source_open_memory(&source, page.bytes, page.count, "a.card", &rules, &NONE), PLM_STATUS_OK);
    ck_assert_msg(plm_card_read(&card, source, &rules, &NONE) == PLM_STATUS_OK, "'%s' gave the card '%s'", text,
                  page.bytes);
    ck_assert_msg(plm_card_diver(card) != NULL && strcmp(plm_card_diver(card), text) == 0, "'%s' came back as '%s'",
                  text, plm_card_diver(card));
    plm_card_free(card);
    plm_source_free(source);
    plmi_text_free(&page);
}

START_TEST(cards_come_back)
{
    struct seeded seeded = {2};
    char text[80];
    int held = 0;
    for (int i = 0; i < SEEDS; i++) {
        make(&seeded, text);
        size_t n = strlen(text);
        if (text[0] == ' ' || text[n - 1] == ' ' || text[strspn(text, " \t\r\n\xe2\x80\xa8\xc2\x85")] == '\0') {
            continue;
        }
        check_card(text);
        held++;
    }
    ck_assert_int_gt(held, SEEDS / 2);
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {cells_come_back, cards_come_back};
    printf("seeds 1 and 2, %d texts each\n", SEEDS);
    return SUITE_RUN("texts", tests);
}
