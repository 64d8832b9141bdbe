/*
 * Lines made simple: fewer points, none of the samples further from the line than the stated tolerance.
 * Must not hide an extreme.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "report/html/svg.h"

/* What rounding to whole units may add is kept free. */
#define SWING_PX (PLMI_SVG_TOLERANCE_PX - 0.5 / PLMI_SVG_PER_PX)

/* Of the dots from..to of one column of pixels: first, least, greatest and last, in their order. Returns: how many were
 * put at out. */
static size_t column_take(struct plmi_svg_dot *out, const struct plmi_svg_dot *dots, size_t from, size_t to)
{
    size_t least = from, most = from, count = 0;
    for (size_t i = from; i < to; i++) {
        least = dots[i].y < dots[least].y ? i : least;
        most = dots[i].y > dots[most].y ? i : most;
    }
    const size_t picks[] = {from, least < most ? least : most, least < most ? most : least, to - 1};
    struct plmi_svg_dot kept[4];
    for (size_t p = 0; p < 4; p++) {
        if (p == 0 || picks[p] != picks[p - 1]) {
            kept[count++] = dots[picks[p]];
        }
    }
    for (size_t p = 0; p < count; p++) {
        out[p] = kept[p];
    }
    return count;
}

/* At most four dots for each column of pixels: what is drawn covers all of the column's heights. */
static size_t columns_thin(struct plmi_svg_dot *dots, size_t count)
{
    size_t kept = 0;
    for (size_t from = 0; from < count;) {
        size_t to = from + 1;
        double column = floor(dots[from].x / PLMI_SVG_COLUMN_PX);
        while (to < count && floor(dots[to].x / PLMI_SVG_COLUMN_PX) <= column) {
            to++;
        }
        kept += column_take(&dots[kept], dots, from, to);
        from = to;
    }
    return kept;
}

/* The slopes of a line from an anchor that passes all dots since within the tolerance. */
struct swing {
    struct plmi_svg_dot anchor;
    double least, most;
};

static bool swing_allows(const struct swing *swing, const struct plmi_svg_dot *dot)
{
    double dx = dot->x - swing->anchor.x;
    double slope = (dot->y - swing->anchor.y) / dx;
    return dx > 0 && slope >= swing->least && slope <= swing->most;
}

static void swing_narrow(struct swing *swing, const struct plmi_svg_dot *dot)
{
    double dx = dot->x - swing->anchor.x;
    swing->least = fmax(swing->least, (dot->y - SWING_PX - swing->anchor.y) / dx);
    swing->most = fmin(swing->most, (dot->y + SWING_PX - swing->anchor.y) / dx);
}

static struct swing swing_from(struct plmi_svg_dot anchor)
{
    return (struct swing){anchor, (double)-INFINITY, (double)INFINITY};
}

/* The extremes of the whole curve. */
struct extremes {
    double least, most;
};

static struct extremes extremes_find(const struct plmi_svg_dot *dots, size_t count)
{
    struct extremes found = {dots[0].y, dots[0].y};
    for (size_t i = 1; i < count; i++) {
        found.least = fmin(found.least, dots[i].y);
        found.most = fmax(found.most, dots[i].y);
    }
    return found;
}

/* Whether dot i is an extreme of the curve that has to be kept as it is: on a level stretch of them only its ends. */
static bool extreme_kept(const struct extremes *extremes, const struct plmi_svg_dot *dots, size_t i, size_t count)
{
    bool low = dots[i].y <= extremes->least, high = dots[i].y >= extremes->most;
    if ((!low && !high) || i + 1 >= count) {
        return low || high;
    }
    return low ? dots[i - 1].y > extremes->least || dots[i + 1].y > extremes->least
               : dots[i - 1].y < extremes->most || dots[i + 1].y < extremes->most;
}

/* From each dot kept, the furthest that a straight line reaches with all between within the tolerance. */
static size_t dots_swing(struct plmi_svg_dot *dots, size_t count)
{
    const struct extremes extremes = extremes_find(dots, count);
    size_t kept = 1, anchor = 0;
    struct swing swing = swing_from(dots[0]);
    for (size_t i = 1; i < count; i++) {
        if (i - 1 != anchor && !swing_allows(&swing, &dots[i])) {
            anchor = i - 1;
            swing = swing_from(dots[anchor]);
            dots[kept++] = swing.anchor;
        }
        if (dots[i].x <= swing.anchor.x || extreme_kept(&extremes, dots, i, count)) {
            anchor = i;
            swing = swing_from(dots[anchor]);
            dots[kept++] = swing.anchor;
        } else {
            swing_narrow(&swing, &dots[i]);
        }
    }
    if (anchor != count - 1) {
        dots[kept++] = dots[count - 1];
    }
    return kept;
}

size_t plmi_svg_simplify(struct plmi_svg_dot *dots, size_t count)
{
    count = columns_thin(dots, count);
    return count > 2 ? dots_swing(dots, count) : count;
}
