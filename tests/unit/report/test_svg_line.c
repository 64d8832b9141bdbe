/*
 * Lines made simple hide nothing: no sample is further from what is drawn than the stated tolerance, extremes stay, a
 * lone spike stays, and a gap stays a gap. The bound is looked at by brute force, sample by sample.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "report/html/svg.h"
#include "support/random.h"
#include "support/suite.h"

#define MOST 20000

static struct plmi_svg_dot dots[MOST], kept[MOST];

/* The heights that the line has anywhere within a column's width of x. */
static void heights_find(size_t count, double x, double *low, double *high)
{
    *low = (double)INFINITY;
    *high = (double)-INFINITY;
    for (size_t i = 0; i < count; i++) {
        struct plmi_svg_dot a = kept[i], b = kept[i + 1 < count ? i + 1 : i];
        double from = fmax(a.x, x - PLMI_SVG_COLUMN_PX), to = fmin(b.x, x + PLMI_SVG_COLUMN_PX);
        if (from > to) {
            continue;
        }
        double rise = b.x > a.x ? (b.y - a.y) / (b.x - a.x) : 0;
        double ends[2] = {b.x > a.x ? a.y + rise * (from - a.x) : a.y, b.x > a.x ? a.y + rise * (to - a.x) : b.y};
        *low = fmin(*low, fmin(ends[0], ends[1]));
        *high = fmax(*high, fmax(ends[0], ends[1]));
    }
}

/* Simplifies dots[count] and looks at every one of them. Returns: how many are left. */
static size_t looked_at(size_t count, const char *what)
{
    double least = (double)INFINITY, most = (double)-INFINITY, kept_least = (double)INFINITY,
           kept_most = (double)-INFINITY;
    memcpy(kept, dots, count * sizeof *dots);
    size_t left = plmi_svg_simplify(kept, count);
    ck_assert_uint_ge(left, 1);
    ck_assert_uint_le(left, count);
    for (size_t i = 0; i < count; i++) {
        double low, high;
        heights_find(left, dots[i].x, &low, &high);
        ck_assert_msg(dots[i].y >= low - PLMI_SVG_TOLERANCE_PX && dots[i].y <= high + PLMI_SVG_TOLERANCE_PX,
                      "%s: sample %zu is hidden", what, i);
        least = fmin(least, dots[i].y);
        most = fmax(most, dots[i].y);
    }
    for (size_t i = 0; i < left; i++) {
        kept_least = fmin(kept_least, kept[i].y);
        kept_most = fmax(kept_most, kept[i].y);
        ck_assert_msg(i == 0 || kept[i].x >= kept[i - 1].x, "%s: goes back", what);
    }
    ck_assert_msg(kept_least <= least && kept_least >= least && kept_most <= most && kept_most >= most,
                  "%s: an extreme is hidden", what);
    return left;
}

/* A walk with noise, plateaus, steps at one x and spikes; count samples over 1000 px. */
static void walk_make(uint64_t seed, size_t count)
{
    struct seeded seeded = {seed};
    double y = 100, x = 0, noise = seeded_between(&seeded, 0, 3);
    for (size_t i = 0; i < count; i++) {
        if (seeded_uniform(&seeded) > 0.02) {
            x += 1000.0 / (double)count * seeded_between(&seeded, 0, 2);
        }
        if (seeded_uniform(&seeded) < 0.3) {
            y += seeded_between(&seeded, -4, 4);
        }
        dots[i] = (struct plmi_svg_dot){x, y + seeded_between(&seeded, -noise, noise)};
        if (seeded_uniform(&seeded) < 0.003) {
            dots[i].y += seeded_between(&seeded, -80, 80);
        }
    }
}

START_TEST(every_sample_is_near_the_line)
{
    static const size_t counts[] = {2, 3, 10, 300, 1000, 4000};
    for (uint64_t seed = 1; seed <= 8; seed++) {
        for (size_t i = 0; i < sizeof counts / sizeof counts[0]; i++) {
            char what[64];
            walk_make(seed, counts[i]);
            snprintf(what, sizeof what, "seed %d, %zu samples", (int)seed, counts[i]);
            looked_at(counts[i], what);
        }
    }
}
END_TEST

START_TEST(one_spike_stays)
{
    for (size_t i = 0; i < 4000; i++) {
        dots[i] = (struct plmi_svg_dot){(double)i / 4, i == 1234 ? 3 : 50};
    }
    size_t left = looked_at(4000, "spike");
    ck_assert_uint_le(left, 8);
}
END_TEST

START_TEST(straight_lines_take_their_ends)
{
    for (size_t i = 0; i < 4000; i++) {
        dots[i] = (struct plmi_svg_dot){(double)i / 4, (double)i / 40};
    }
    ck_assert_uint_eq(looked_at(4000, "ramp"), 2);
    for (size_t i = 0; i < 4000; i++) {
        dots[i].y = 7;
    }
    ck_assert_uint_le(looked_at(4000, "level"), 2);
}
END_TEST

/* Counts of a letter in what is drawn. */
static int letters(const struct plmi_text *text, char letter)
{
    int count = 0;
    const char *path = strstr(text->bytes, "d=\"");
    ck_assert_ptr_nonnull(path);
    for (const char *at = path + 3; *at != '\0'; at++) {
        count += *at == letter;
    }
    return count;
}

START_TEST(gaps_stay_gaps)
{
    const double nan = (double)NAN;
    const double times[] = {0, 1, 2, 3, 4, 5, 6}, values[] = {nan, 1, 2, nan, 3, nan, nan};
    struct plmi_svg_dot room[32];
    struct plmi_svg_point points[64];
    struct plmi_text text;
    plmi_text_init(&text);
    const struct plmi_svg_plot plot = {&text, {0, 6, 0, 100}, 100, times, 7, room, points};
    const struct plmi_svg_scale scale = {0, 4, 0, 100};
    plmi_svg_curve(&plot, "a", values, &scale, false);
    ck_assert_int_eq(letters(&text, 'M'), 2);
    plmi_text_clear(&text);
    plmi_svg_curve(&plot, "a", values, &scale, true);
    ck_assert_int_eq(letters(&text, 'M'), 2);
    plmi_text_clear(&text);
    plmi_svg_room(&plot, "a", values, NULL, 0, &scale);
    ck_assert_int_eq(letters(&text, 'z'), 2);
    plmi_text_free(&text);
}
END_TEST

START_TEST(steps_are_round)
{
    static const struct {
        double span;
        int most;
        double want;
    } rows[] = {{10, 5, 2}, {11, 5, 5}, {0.9, 3, 0.5}, {100, 10, 10}, {7, 8, 1}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        ck_assert_double_eq_tol(plmi_svg_step(rows[i].span, rows[i].most), rows[i].want, 1e-9);
    }
    ck_assert_double_eq_tol(plmi_svg_time_step_s(13400, 8), 1800, 1e-6);
    ck_assert_double_eq_tol(plmi_svg_time_step_s(60, 8), 60, 1e-6);
    ck_assert_double_eq_tol(plmi_svg_time_step_s(600000, 8), 3600 * 50, 1e-6);
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {every_sample_is_near_the_line, one_spike_stays, straight_lines_take_their_ends,
                                  gaps_stay_gaps, steps_are_round};
    return SUITE_RUN("svg_line", tests);
}
