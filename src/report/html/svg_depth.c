/*
 * Depth over time with the ceiling, the water between them, the plan and the findings. Depth is drawn by pressure:
 * equal heights for equal factors of pressure, as a gas takes it. Must not judge.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <stdio.h>

#include "report/html/pictures.h"

#define HEIGHT_PX 340
#define TOP_PX    12
#define FOOT_PX   12
/* [px] between words of depth, at least */
#define WORDS_APART_PX 17

static struct plmi_svg_scale level_scale(const struct plmi_pictures *pictures)
{
    const struct plmi_curves *curves = pictures->curves;
    double most = fmax(plmi_curves_most(curves, PLMI_CURVES_LEVEL), plmi_curves_level(curves, 3));
    for (size_t i = 0; i < curves->plan_count; i++) {
        most = fmax(most, curves->plan_level[i]);
    }
    return (struct plmi_svg_scale){0, most, plmi_picture_pct(pictures, TOP_PX),
                                   plmi_picture_pct(pictures, HEIGHT_PX - FOOT_PX)};
}

static void depth_lines(struct plmi_pictures *pictures, const struct plmi_svg_scale *scale)
{
    static const int depths_m[] = {0,   3,   6,   9,   12,  15,  20,  30,  40,  50,  60,  70,  80, 90,
                                   100, 120, 140, 160, 180, 200, 230, 260, 300, 350, 400, 450, 500};
    double last_pct = -100;
    for (size_t i = 0; i < sizeof depths_m / sizeof depths_m[0]; i++) {
        double level = plmi_curves_level(pictures->curves, depths_m[i]);
        double y_pct = plmi_svg_scale_pct(scale, level);
        if (level > scale->to || (y_pct - last_pct) / 100 * HEIGHT_PX < WORDS_APART_PX) {
            continue;
        }
        char words[16];
        snprintf(words, sizeof words, "%d", depths_m[i]);
        plmi_picture_level(pictures, i == 0 ? "surface" : "grid", y_pct, words);
        last_pct = y_pct;
    }
}

static void ceiling_draw(struct plmi_pictures *pictures, const struct plmi_svg_scale *scale)
{
    const struct plmi_curves *curves = pictures->curves;
    if (!curves->known[PLMI_CURVES_CEILING_LEVEL]) {
        return;
    }
    plmi_svg_room(&pictures->plot, "water", curves->column[PLMI_CURVES_LEVEL],
                  curves->column[PLMI_CURVES_CEILING_LEVEL], 0, scale);
    plmi_picture_curve(pictures, "ceiling", PLMI_CURVES_CEILING_LEVEL, scale, false);
}

static void above_draw(struct plmi_pictures *pictures, const struct plmi_svg_scale *scale)
{
    const struct plmi_curves *curves = pictures->curves;
    plmi_picture_beyond(pictures, curves->column[PLMI_CURVES_LEVEL], curves->column[PLMI_CURVES_CEILING_LEVEL], 0, -1,
                        scale);
}

static void plan_draw(struct plmi_pictures *pictures, const struct plmi_svg_scale *scale)
{
    const struct plmi_curves *curves = pictures->curves;
    struct plmi_svg_plot plot = pictures->plot;
    plot.time_s = curves->plan_time_s;
    plot.count = curves->plan_count;
    if (curves->plan_count > 0) {
        plmi_svg_curve(&plot, "plan", curves->plan_level, scale, false);
    }
}

static void describe(struct plmi_text *desc, const struct plmi_pictures *pictures)
{
    plmi_view_sentence_write(
        desc, pictures->view,
        "Depth over {duration_s}: to {max_depth_m} at {max_depth_at_s}. Deepest ceiling {deepest_ceiling_m}; "
        "least water between diver and ceiling {min_clearance_m} at {min_clearance_at_s}.");
    if (pictures->view->finding_count > 0) {
        plmi_text_printf(desc, " Marked are %zu findings, numbered as in the list.", pictures->view->finding_count);
    }
    if (pictures->curves->plan_count > 0) {
        plmi_text_puts(desc, " The plan is a broken line.");
    }
}

void plmi_picture_depth(struct plmi_pictures *pictures)
{
    struct plmi_text desc;
    plmi_text_init(&desc);
    describe(&desc, pictures);
    plmi_picture_begin(pictures, "depth", HEIGHT_PX, "Depth, ceiling and findings over time", &desc);
    const struct plmi_svg_scale scale = level_scale(pictures);
    depth_lines(pictures, &scale);
    plmi_picture_plot(pictures);
    ceiling_draw(pictures, &scale);
    plmi_picture_stretches(pictures, &scale);
    plmi_picture_curve(pictures, "line", PLMI_CURVES_LEVEL, &scale, false);
    plan_draw(pictures, &scale);
    above_draw(pictures, &scale);
    plmi_picture_plot_end(pictures);
    plmi_picture_marks(pictures, &scale);
    plmi_picture_end(pictures, false);
}
