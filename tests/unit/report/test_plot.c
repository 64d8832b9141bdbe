/*
 * The picture of letters: its size, that it hides no extreme, that the ceiling fills the room above the diver, that
 * marks stand where findings are. What is expected is told from the profile by hand.
 * SPDX-License-Identifier: MIT
 */
#include <check.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "report/text/plot.h"
#include "support/made_dive.h"
#include "support/suite.h"

#define LINES_MAX 40

struct drawn {
    struct plmi_text text;
    const char *line[LINES_MAX];
    int count;
};

/* Down to 60 m in 3 min, 20 min there, up to 6 m at 25 min, up at 100 min. One spike to 66 m for one sample at 10 min.
 */
static struct plm_dive *profile(void)
{
    struct made_dive made = made_start(1.0);
    made_open(&made, 0.21, 0);
    made_sample(&made, 0, 0);
    made_sample(&made, 180, 60);
    made_sample(&made, 595, 60);
    made_sample(&made, 600, 66);
    made_sample(&made, 605, 60);
    made_sample(&made, 1380, 60);
    made_sample(&made, 1500, 6);
    made_sample(&made, 5940, 6);
    made_sample(&made, 6000, 0);
    return made_finish(&made);
}

static struct drawn draw(const struct plmi_view *view, int columns, int rows, bool ascii)
{
    struct drawn drawn = {.count = 0};
    struct plmi_page page = {.out = &drawn.text, .colour = false};
    const struct plmi_plot_options options = {columns, rows, ascii, true};
    plmi_text_init(&drawn.text);
    plmi_plot_write(&page, view, &options);
    ck_assert(!drawn.text.failed);
    for (char *at = drawn.text.bytes; at != NULL && *at != '\0' && drawn.count < LINES_MAX;) {
        char *end = strchr(at, '\n');
        ck_assert_ptr_nonnull(end);
        *end = '\0';
        drawn.line[drawn.count++] = at;
        at = end + 1;
    }
    return drawn;
}

static struct plm_rules rules;
static struct plm_debriefed one;
static struct plmi_view *view;

static void setup(void)
{
    rules = plm_rules_default();
    one = (struct plm_debriefed){.dive = profile(), .replay = {.rules = &rules}};
    struct plm_replay_options options = plm_replay_options_default(&rules);
    ck_assert_int_eq(plm_replay(&one.trace, one.dive, &options, NULL), PLM_STATUS_OK);
    ck_assert_int_eq(plmi_view_new(&view, &one), PLM_STATUS_OK);
}

static void teardown(void)
{
    plmi_view_free(view);
    plm_trace_free(one.trace);
    plm_dive_free(one.dive);
}

START_TEST(keeps_its_size)
{
    setup();
    for (int columns = 40; columns <= 120; columns += 20) {
        for (int ascii = 0; ascii < 2; ascii++) {
            int most = columns > PLMI_PLOT_COLUMNS_MAX ? PLMI_PLOT_COLUMNS_MAX : columns;
            struct drawn drawn = draw(view, columns, 12, ascii > 0);
            ck_assert_int_eq(drawn.count, 12 + 3);
            for (int i = 0; i < drawn.count; i++) {
                ck_assert_msg(plmi_page_width(drawn.line[i]) <= most, "%d columns: %s", columns, drawn.line[i]);
                for (const char *at = drawn.line[i]; ascii > 0 && *at != '\0'; at++) {
                    ck_assert_msg((unsigned char)*at < 0x80, "%s", drawn.line[i]);
                }
            }
            plmi_text_free(&drawn.text);
        }
    }
    teardown();
}
END_TEST

/* The spike of five seconds is the deepest point: at 1 bar and 66 m it alone reaches the lowest row of 14; 60 m lies in
 * the one above. */
START_TEST(hides_no_extreme)
{
    setup();
    struct drawn drawn = draw(view, 80, 14, true);
    const char *lowest = drawn.line[13];
    int marks = 0, first = 0;
    for (int column = 6; lowest[column] != '\0'; column++) {
        if (lowest[column] != ' ') {
            marks++;
            first = first == 0 ? column : first;
        }
    }
    /* 600 s of 6000 s over 74 columns: column 7 of them */
    ck_assert_msg(marks >= 1 && strchr(lowest, ':') == NULL, "%s", lowest);
    ck_assert_msg(lowest[6 + 7] != ' ', "%s, first at %d", lowest, first);
    plmi_text_free(&drawn.text);
    teardown();
}
END_TEST

/* On air at 60 m for 20 min there is a ceiling at the end, and none in the first minute; no filled cell lies under the
 * diver's line. */
START_TEST(fills_above_the_diver)
{
    setup();
    struct drawn drawn = draw(view, 80, 14, true);
    ck_assert_msg(strchr(drawn.line[0], ':') != NULL, "%s", drawn.line[0]);
    ck_assert_msg(drawn.line[0][7] != ':', "%s", drawn.line[0]);
    for (int column = 6; column < 6 + 15; column++) {
        bool line_met = false;
        for (int row = 0; row < 14 && (int)strlen(drawn.line[row]) > column; row++) {
            char letter = drawn.line[row][column];
            line_met = line_met || (letter != ' ' && letter != ':');
            ck_assert_msg(!(line_met && letter == ':'), "column %d, row %d", column, row);
        }
    }
    plmi_text_free(&drawn.text);
    teardown();
}
END_TEST

/* Three findings: at the start, over the second half, and beside the first, which therefore gets a row of its own. */
START_TEST(marks_findings_by_number)
{
    setup();
    struct plm_finding findings[3] = {
        {.from_s = 0, .to_s = 10}, {.from_s = 3000, .to_s = 6000}, {.from_s = 0, .to_s = 1200}};
    struct plmi_view_finding list[3] = {
        {.finding = &findings[0]}, {.finding = &findings[1]}, {.finding = &findings[2]}};
    view->findings = list;
    view->finding_count = 3;
    struct drawn drawn = draw(view, 80, 14, true);
    ck_assert_int_eq(drawn.count, 14 + 3 + 2);
    ck_assert_int_eq(drawn.line[16][6], '1');
    ck_assert_int_eq(drawn.line[16][6 + 37], '2');
    ck_assert_int_eq(drawn.line[16][79], '-');
    ck_assert_int_eq(drawn.line[17][6], '3');
    ck_assert_int_eq(drawn.line[17][6 + 14], '-');
    ck_assert_msg(strlen(drawn.line[17]) == 6 + 15, "%s", drawn.line[17]);
    view->finding_count = 0;
    plmi_text_free(&drawn.text);
    teardown();
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {keeps_its_size, hides_no_extreme, fills_above_the_diver, marks_findings_by_number};
    return SUITE_RUN("plot", tests);
}
