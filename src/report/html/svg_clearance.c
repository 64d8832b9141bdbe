/*
 * The water between the diver and the ceiling over time; above the ceiling it falls below zero. Must not judge.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <stdio.h>

#include "report/html/pictures.h"

#define HEIGHT_PX 112
#define TOP_PX    8
#define FOOT_PX   20
/* [m] what is more than this is not distinguished: a diver has room there */
#define MOST_M  6.0
#define LEAST_M 1.0
/* [%] of the width that a stretch above the ceiling takes at least */
#define STRIPE_PCT 0.35

static struct plmi_svg_scale clearance_scale(const struct plmi_pictures *pictures)
{
    double least = plmi_curves_least(pictures->curves, PLMI_CURVES_CLEARANCE);
    least = least < 0 ? fmin(-LEAST_M, floor(least * 1.2)) : -LEAST_M / 2;
    return (struct plmi_svg_scale){MOST_M, least, plmi_picture_pct(pictures, TOP_PX),
                                   plmi_picture_pct(pictures, HEIGHT_PX - FOOT_PX)};
}

/* A stripe of the whole height wherever the diver was above the ceiling, however short. */
static void stripes_draw(struct plmi_pictures *pictures)
{
    const double *clearance_m = pictures->curves->column[PLMI_CURVES_CLEARANCE];
    for (size_t from = 0, to; from < pictures->curves->count; from = to + 1) {
        to = from;
        while (to < pictures->curves->count && clearance_m[to] < 0) {
            to++;
        }
        if (to == from) {
            continue;
        }
        double x_pct = plmi_svg_scale_pct(&pictures->plot.time, pictures->plot.time_s[from]);
        double to_pct = plmi_svg_scale_pct(&pictures->plot.time, pictures->plot.time_s[to - 1]);
        plmi_svg_rect(pictures->out, "stripe", x_pct, 0, fmax(to_pct - x_pct, STRIPE_PCT),
                      plmi_picture_pct(pictures, HEIGHT_PX - FOOT_PX));
    }
}

static void room_draw(struct plmi_pictures *pictures, const struct plmi_svg_scale *scale)
{
    const double *clearance_m = pictures->curves->column[PLMI_CURVES_CLEARANCE];
    for (size_t i = 0; i < pictures->curves->count; i++) {
        pictures->values[i] = clearance_m[i] > 0 ? clearance_m[i] : isnan(clearance_m[i]) ? clearance_m[i] : 0;
    }
    plmi_svg_room(&pictures->plot, "water", pictures->values, NULL, 0, scale);
}

void plmi_picture_clearance(struct plmi_pictures *pictures)
{
    struct plmi_text desc;
    if (!pictures->curves->known[PLMI_CURVES_CLEARANCE]) {
        return;
    }
    plmi_text_init(&desc);
    plmi_view_sentence_write(
        &desc, pictures->view,
        "Depth of the diver less depth of the ceiling, where there is one; least {min_clearance_m} at "
        "{min_clearance_at_s}. Below zero the diver was above the ceiling.");
    plmi_picture_begin(pictures, "clearance", HEIGHT_PX, "Water between diver and ceiling over time", &desc);
    const struct plmi_svg_scale scale = clearance_scale(pictures);
    stripes_draw(pictures);
    plmi_picture_level(pictures, "grid", plmi_svg_scale_pct(&scale, MOST_M), "6");
    plmi_picture_level(pictures, "grid", plmi_svg_scale_pct(&scale, MOST_M / 2), "3");
    plmi_picture_level(pictures, "ceiling", plmi_svg_scale_pct(&scale, 0), "0");
    plmi_picture_plot(pictures);
    room_draw(pictures, &scale);
    plmi_picture_curve(pictures, "line", PLMI_CURVES_CLEARANCE, &scale, false);
    plmi_picture_beyond(pictures, pictures->curves->column[PLMI_CURVES_CLEARANCE], NULL, 0, -1, &scale);
    plmi_picture_plot_end(pictures);
    plmi_picture_end(pictures, true);
}
