/*
 * Oxygen over time: the pressure that the model took, the set point and the cells, with the limits of the rules.
 * Must not judge.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "base/number.h"
#include "report/html/pictures.h"

#define HEIGHT_PX 150
#define TOP_PX    8
#define FOOT_PX   20
/* [bar] the least that the picture reaches to, and the most */
#define LEAST_TOP_BAR 1.7
#define MOST_TOP_BAR  10.0

static struct plmi_svg_scale oxygen_scale(const struct plmi_pictures *pictures)
{
    double top_bar = fmax(LEAST_TOP_BAR, plmi_curves_most(pictures->curves, PLMI_CURVES_PO2) + 0.1);
    for (int cell = 0; cell < PLM_CELLS; cell++) {
        top_bar = fmax(top_bar, plmi_curves_most(pictures->curves, plmi_curves_cell(cell)) + 0.1);
    }
    return (struct plmi_svg_scale){fmin(top_bar, MOST_TOP_BAR), 0, plmi_picture_pct(pictures, TOP_PX),
                                   plmi_picture_pct(pictures, HEIGHT_PX - FOOT_PX)};
}

static void level_draw(struct plmi_pictures *pictures, const struct plmi_svg_scale *scale, const char *class_name,
                       double bar)
{
    struct plmi_text words;
    plmi_text_init(&words);
    plmi_number_fixed(&words, bar, fabs(bar * 10 - round(bar * 10)) < 1e-9 ? 1 : 2);
    plmi_picture_level(pictures, class_name, plmi_svg_scale_held_pct(scale, bar),
                       words.bytes != NULL ? words.bytes : "");
    pictures->out->failed = pictures->out->failed || words.failed;
    plmi_text_free(&words);
}

static void levels_draw(struct plmi_pictures *pictures, const struct plmi_svg_scale *scale)
{
    const struct plm_rules *rules = pictures->view->rules;
    level_draw(pictures, scale, "limit", rules->po2_max_bar);
    level_draw(pictures, scale, "limit second", rules->po2_bottom_max_bar);
    level_draw(pictures, scale, "grid", 1.0);
    level_draw(pictures, scale, "grid", 0.5);
    level_draw(pictures, scale, "limit", rules->po2_min_bar);
}

void plmi_picture_oxygen(struct plmi_pictures *pictures)
{
    struct plmi_text desc;
    plmi_text_init(&desc);
    plmi_view_sentence_write(
        &desc, pictures->view,
        "Inspired oxygen pressure by {oxygen_from}: lowest {min_po2_bar} at {min_po2_at_s}, highest "
        "{max_po2_bar} at {max_po2_at_s}. Broken lines are limits.");
    plmi_picture_begin(pictures, "oxygen", HEIGHT_PX, "Oxygen pressure over time", &desc);
    const struct plmi_svg_scale scale = oxygen_scale(pictures);
    levels_draw(pictures, &scale);
    plmi_picture_plot(pictures);
    for (int cell = 0; cell < PLM_CELLS; cell++) {
        plmi_picture_curve(pictures, "cell", plmi_curves_cell(cell), &scale, false);
    }
    plmi_picture_beyond(pictures, pictures->curves->column[PLMI_CURVES_PO2], NULL, pictures->view->rules->po2_max_bar,
                        1, &scale);
    plmi_picture_beyond(pictures, pictures->curves->column[PLMI_CURVES_PO2], NULL, pictures->view->rules->po2_min_bar,
                        -1, &scale);
    plmi_picture_curve(pictures, "setpoint", PLMI_CURVES_SETPOINT, &scale, true);
    plmi_picture_curve(pictures, "line", PLMI_CURVES_PO2, &scale, false);
    plmi_picture_plot_end(pictures);
    plmi_picture_end(pictures, true);
}
