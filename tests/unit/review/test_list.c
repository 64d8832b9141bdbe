/*
 * Times in sentences, and doses at their limit. Source: the marks of review/list.h; what rounds to a minute is a
 * minute.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "review/scene/dose.h"
#include "support/reviewed.h"
#include "support/suite.h"

/* Rounded once, so that 59.5 s are a minute and not "60 s", 3599.5 s an hour and not "60:00 min". */
START_TEST(durations_are_rounded_once)
{
    static const struct {
        double seconds;
        const char *text;
    } rows[] = {
        {0, "0 s"},          {1.4, "1 s"},        {59.4, "59 s"},   {59.5, "1:00 min"},    {59.9, "1:00 min"},
        {60, "1:00 min"},    {60.5, "1:01 min"},  {90, "1:30 min"}, {3599.4, "59:59 min"}, {3599.5, "1:00:00 h"},
        {3600, "1:00:00 h"}, {3725, "1:02:05 h"},
    };
    struct plm_finding_list list;
    plmi_finding_list_init(&list);
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        ck_assert_str_eq(plm_finding_sentence(&list, "{d}", rows[i].seconds), rows[i].text);
    }
    plmi_finding_list_free(&list);
}
END_TEST

/* A dose that is known at every point: 2 at the minute, so 10 after the five minutes of the dive. */
static double two_a_minute(const struct plm_point *point)
{
    return (double)point->time_ms / 30000.0;
}

/* Six samples a minute apart: a limit of 10 is met with the last one, 7 half-way between the third and fourth minute.
 */
START_TEST(a_dose_counts_from_its_limit_on)
{
    static const struct {
        double carried, limit;
        bool met;
        double from_s;
    } rows[] = {
        {0, 10, true, 300}, {0, 10.001, false, 0}, {0, 9.999, true, 299.97}, {0, 7, true, 210},
        {4, 14, true, 300}, {4, 14.001, false, 0}, {4, 4, true, 0},
    };
    struct made_dive made = made_start(1.0);
    made_open(&made, 0.21, 0.0);
    for (int i = 0; i <= 5; i++) {
        made_sample(&made, 60 * i, i == 0 || i == 5 ? 0 : 10);
    }
    struct reviewed reviewed;
    reviewed_make(&reviewed, &made, &(struct review_wish){.hold = false});
    struct plm_review_scene scene = plmi_review_scene_of(&reviewed.input);
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct plm_finding_list list;
        plmi_finding_list_init(&list);
        const struct plm_finding *found =
            plmi_review_dose_found(&list, &scene, two_a_minute, rows[i].carried, rows[i].limit);
        ck_assert_msg((found != NULL) == rows[i].met, "row %zu", i);
        if (found != NULL) {
            ck_assert_double_eq_tol(found->from_s, rows[i].from_s, 1e-6);
            ck_assert_double_eq_tol(found->value, rows[i].carried + 10, 1e-12);
        }
        plmi_finding_list_free(&list);
    }
    reviewed_free(&reviewed);
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {durations_are_rounded_once, a_dose_counts_from_its_limit_on};
    return SUITE_RUN("list", tests);
}
