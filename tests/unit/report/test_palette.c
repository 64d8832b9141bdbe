/*
 * Colours of the compartments: known colours come out right, steps are even, and in grey each is lighter than the one
 * before. Source of the known ones: CSS Color 4, OKLab of the sRGB primaries.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "report/html/palette.h"
#include "support/suite.h"

/* Part 0..2 of "#rrggbb". */
static int part(const char *hex, int index)
{
    char pair[3] = {hex[1 + 2 * index], hex[2 + 2 * index], '\0'};
    return (int)strtol(pair, NULL, 16);
}

START_TEST(known_colours)
{
    static const struct {
        double l, a, b;
        const char *want;
    } rows[] = {{0.62796, 0.22486, 0.12585, "#ff0000"},
                {0.86644, -0.23389, 0.17950, "#00ff00"},
                {0.45201, -0.03246, -0.31153, "#0000ff"},
                {1, 0, 0, "#ffffff"},
                {0, 0, 0, "#000000"},
                /* greys by hand: L cubed is linear light; 1.055 x 0.125^(1/2.4) - 0.055 = 0.3886 (IEC 61966-2-1), 12.92
                   x 0.001 = 0.0129 */
                {0.5, 0, 0, "#636363"},
                {0.1, 0, 0, "#030303"}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const struct plmi_palette_colour colour = {rows[i].l, hypot(rows[i].a, rows[i].b),
                                                   atan2(rows[i].b, rows[i].a) * 180 / acos(-1.0)};
        for (int c = 0; c < 3; c++) {
            ck_assert_int_le(abs(part(plmi_palette_hex(&colour).text, c) - part(rows[i].want, c)), 1);
        }
    }
}
END_TEST

/* Luminance of "#rrggbb": IEC 61966-2-1. */
static double luminance(const char *hex)
{
    static const double weights[] = {0.2126, 0.7152, 0.0722};
    double sum = 0;
    for (int c = 0; c < 3; c++) {
        double shown = part(hex, c) / 255.0;
        sum += weights[c] * (shown <= 0.04045 ? shown / 12.92 : pow((shown + 0.055) / 1.055, 2.4));
    }
    return sum;
}

/* CIE 1976 lightness: another measure than the one that the palette is made by. */
static double lightness(const char *hex)
{
    return 116 * cbrt(luminance(hex)) - 16;
}

START_TEST(steps_are_even_in_grey)
{
    const struct plmi_palette_colour fast = {0.42, 0.12, 275}, slow = {0.86, 0.12, 95};
    double last = 0, least = 100, most = 0;
    for (int i = 0; i < 16; i++) {
        const struct plmi_palette_colour colour = plmi_palette_between(&fast, &slow, i, 16);
        const struct plmi_palette_hex hex = plmi_palette_hex(&colour);
        double light = lightness(hex.text);
        if (i > 0) {
            least = fmin(least, light - last);
            most = fmax(most, light - last);
        }
        last = light;
    }
    ck_assert_double_ge(least, 2.0);
    ck_assert_double_le(most, 5.0);
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {known_colours, steps_are_even_in_grey};
    return SUITE_RUN("palette", tests);
}
