/*
 * The rate of ascent over time with its limit by depth band; what is faster stands out. Must not judge.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <stdio.h>

#include "report/html/pictures.h"

#define HEIGHT_PX 132
#define TOP_PX    8
#define FOOT_PX   20
/* [m/min] of descent that the picture reaches to */
#define DESCENT_M_MIN 6.0
/* [s] for which a limit has to hold to be drawn anew: a stop at the edge of a band is no row of teeth */
#define LIMIT_HOLDS_S 60.0

static struct plmi_svg_scale rate_scale(const struct plmi_pictures *pictures)
{
    double most = fmax(plmi_curves_most(pictures->curves, PLMI_CURVES_RATE),
                       plmi_curves_most(pictures->curves, PLMI_CURVES_RATE_LIMIT));
    return (struct plmi_svg_scale){fmax(12, most) * 1.08, -DESCENT_M_MIN, plmi_picture_pct(pictures, TOP_PX),
                                   plmi_picture_pct(pictures, HEIGHT_PX - FOOT_PX)};
}

static void levels_draw(struct plmi_pictures *pictures, const struct plmi_svg_scale *scale)
{
    double step = plmi_svg_step(scale->from, 4);
    for (double rate = 0; rate < scale->from; rate += step) {
        char words[24];
        snprintf(words, sizeof words, "%d", (int)lround(rate));
        plmi_picture_level(pictures, rate > 0 ? "grid" : "surface", plmi_svg_scale_pct(scale, rate), words);
    }
}

/* The limit as it is drawn: changed where the new one holds for a while. */
static void limit_values(struct plmi_pictures *pictures)
{
    const double *limit = pictures->curves->column[PLMI_CURVES_RATE_LIMIT], *time_s = pictures->plot.time_s;
    double drawn = limit[0];
    for (size_t from = 0, to; from < pictures->curves->count; from = to) {
        to = from + 1;
        while (to < pictures->curves->count && limit[to] <= limit[from] && limit[to] >= limit[from]) {
            to++;
        }
        if (time_s[to < pictures->curves->count ? to : to - 1] - time_s[from] >= LIMIT_HOLDS_S ||
            to == pictures->curves->count) {
            drawn = limit[from];
        }
        for (size_t i = from; i < to; i++) {
            pictures->values[i] = drawn;
        }
    }
}

void plmi_picture_rate(struct plmi_pictures *pictures)
{
    struct plmi_text desc;
    plmi_text_init(&desc);
    plmi_view_sentence_write(
        &desc, pictures->view,
        "Rate of ascent in metres a minute, fitted over {ascent_window_s}; upwards is ascent. The broken line is "
        "the limit at that depth.");
    plmi_picture_begin(pictures, "rate", HEIGHT_PX, "Rate of ascent over time", &desc);
    const struct plmi_svg_scale scale = rate_scale(pictures);
    levels_draw(pictures, &scale);
    plmi_picture_plot(pictures);
    plmi_svg_room(&pictures->plot, "quiet", pictures->curves->column[PLMI_CURVES_RATE], NULL, 0, &scale);
    limit_values(pictures);
    plmi_svg_curve(&pictures->plot, "limit", pictures->values, &scale, true);
    plmi_picture_curve(pictures, "line", PLMI_CURVES_RATE, &scale, false);
    plmi_picture_beyond(pictures, pictures->curves->column[PLMI_CURVES_RATE],
                        pictures->curves->column[PLMI_CURVES_RATE_LIMIT], 0, 1, &scale);
    plmi_picture_plot_end(pictures);
    plmi_picture_end(pictures, true);
}
