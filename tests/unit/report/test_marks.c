/*
 * Numbered marks beside a curve: none covers another, even in a window of 340 px, and none leaves the picture.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "report/html/pictures.h"
#include "support/random.h"
#include "support/suite.h"

#define NARROW_PX 340
#define HEIGHT_PX 340
/* [px] across a mark, its bar not counted */
#define ACROSS_PX 20
#define MARKS     24

START_TEST(none_covers_another)
{
    for (uint64_t seed = 1; seed <= 40; seed++) {
        struct seeded seeded = {seed};
        struct plmi_mark marks[MARKS];
        size_t shown = 0;
        for (size_t m = 0; m < MARKS; m++) {
            marks[m] = (struct plmi_mark){.x_pct = seeded_between(&seeded, 0, 94),
                                          .place_y_px = seeded_between(&seeded, 10, 320)};
        }
        plmi_marks_place(marks, MARKS, HEIGHT_PX);
        for (size_t m = 0; m < MARKS; m++) {
            if (!marks[m].shown) {
                continue;
            }
            shown++;
            ck_assert(marks[m].y_px > ACROSS_PX / 2 && marks[m].y_px < HEIGHT_PX - ACROSS_PX / 2);
            for (size_t n = 0; n < m; n++) {
                ck_assert(!marks[n].shown || fabs(marks[n].x_pct - marks[m].x_pct) / 100 * NARROW_PX >= ACROSS_PX ||
                          fabs(marks[n].y_px - marks[m].y_px) >= ACROSS_PX);
            }
        }
        ck_assert_uint_eq(shown, MARKS);
    }
}
END_TEST

START_TEST(a_crowd_at_one_place_is_stacked)
{
    struct plmi_mark marks[MARKS];
    size_t shown = 0;
    for (size_t m = 0; m < MARKS; m++) {
        marks[m] = (struct plmi_mark){.x_pct = 50, .place_y_px = 100};
    }
    plmi_marks_place(marks, MARKS, HEIGHT_PX);
    for (size_t m = 0; m < MARKS; m++) {
        shown += marks[m].shown;
    }
    ck_assert(marks[0].shown && marks[1].shown);
    ck_assert_uint_ge(shown, 13);
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {none_covers_another, a_crowd_at_one_place_is_stacked};
    return SUITE_RUN("marks", tests);
}
