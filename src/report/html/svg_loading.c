/*
 * The loading of the 16 compartments over time: a ridge for each, the fast ones above, its height the gradient; bold
 * where it leads. Nothing is drawn while a compartment is not over ambient pressure. Must not compute gradients.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <stdio.h>

#include "report/html/pictures.h"

#define TOP_PX    34
#define PITCH_PX  14
#define FOOT_PX   20
#define HEIGHT_PX (TOP_PX + PLM_COMPARTMENTS * PITCH_PX + FOOT_PX)
/* [px] height of 100 % of the gradient that the M-value allows */
#define FULL_PX 52.0
/* [%] that a ridge reaches to */
#define MOST_PCT 200
/* [%] of the width at which the measure stands */
#define MEASURE_PCT 0.6

static struct plmi_svg_scale ridge_scale(const struct plmi_pictures *pictures, int compartment)
{
    double base_px = TOP_PX + (compartment + 1) * PITCH_PX;
    return (struct plmi_svg_scale){0, MOST_PCT, plmi_picture_pct(pictures, base_px),
                                   plmi_picture_pct(pictures, base_px - FULL_PX * MOST_PCT / 100)};
}

/* Above zero, with the samples beside it that join it to the ground; else NaN. */
static void ridge_values(struct plmi_pictures *pictures, const double *loading_pct)
{
    const size_t count = pictures->curves->count;
    for (size_t i = 0; i < count; i++) {
        bool beside = (i > 0 && loading_pct[i - 1] > 0) || (i + 1 < count && loading_pct[i + 1] > 0);
        pictures->values[i] = loading_pct[i] > 0 ? loading_pct[i] : beside ? 0 : (double)NAN;
    }
}

static void leads_values(struct plmi_pictures *pictures, const double *loading_pct, int compartment)
{
    const double *leading = pictures->curves->column[PLMI_CURVES_LEADING];
    for (size_t i = 0; i < pictures->curves->count; i++) {
        pictures->values[i] =
            lround(leading[i]) == compartment + 1 && loading_pct[i] > 0 ? loading_pct[i] : (double)NAN;
    }
}

static void ridge_draw(struct plmi_pictures *pictures, int compartment)
{
    const struct plmi_svg_scale scale = ridge_scale(pictures, compartment);
    const double *loading_pct = pictures->curves->column[plmi_curves_loading(compartment)];
    char class_name[24];
    ridge_values(pictures, loading_pct);
    snprintf(class_name, sizeof class_name, "ridge c%d", compartment + 1);
    plmi_svg_room(&pictures->plot, class_name, pictures->values, NULL, 0, &scale);
    plmi_picture_beyond(pictures, loading_pct, NULL, 100, 1, &scale);
    leads_values(pictures, loading_pct, compartment);
    plmi_svg_curve(&pictures->plot, "leads", pictures->values, &scale, false);
}

static void half_time_words(struct plmi_pictures *pictures, int compartment)
{
    char words[24];
    double half_time_min = plmi_curves_half_time_min(pictures->view, compartment);
    int tenths = (int)lround(half_time_min * 10);
    if (tenths % 10 != 0) {
        snprintf(words, sizeof words, "%d.%d", tenths / 10, tenths % 10);
    } else {
        snprintf(words, sizeof words, "%d", tenths / 10);
    }
    double y_px = TOP_PX + (compartment + 1) * PITCH_PX - 4;
    plmi_svg_text(pictures->out, "level", PLMI_PICTURES_WORDS_PCT, plmi_picture_pct(pictures, y_px), words);
}

/* How high 100 % is, at the left, where a dive has no ridges yet. */
static void measure_draw(struct plmi_pictures *pictures)
{
    const struct plmi_svg_scale scale = ridge_scale(pictures, PLM_COMPARTMENTS - 1);
    const double low_pct = plmi_svg_scale_pct(&scale, 0), high_pct = plmi_svg_scale_pct(&scale, 100);
    plmi_svg_line(pictures->out, "surface", MEASURE_PCT, low_pct, MEASURE_PCT, high_pct);
    plmi_svg_line(pictures->out, "surface", MEASURE_PCT, low_pct, 2 * MEASURE_PCT, low_pct);
    plmi_svg_line(pictures->out, "surface", MEASURE_PCT, high_pct, 2 * MEASURE_PCT, high_pct);
    plmi_svg_text(pictures->out, "level", 3 * MEASURE_PCT, high_pct, "100 %");
    plmi_svg_text(pictures->out, "level", 3 * MEASURE_PCT, low_pct, "0");
}

void plmi_picture_loading(struct plmi_pictures *pictures)
{
    struct plmi_text desc;
    plmi_text_init(&desc);
    plmi_view_sentence_write(
        &desc, pictures->view,
        "Gradient of each of 16 compartments in percent of what its M-value allows. Highest {peak_gradient_pct} "
        "at {peak_at_s}, compartment {leading_compartment}");
    plmi_view_sentence_write(&desc, pictures->view,
                             isnan(plmi_view_find(pictures->view, "ends_in_water_m")->value)
                                 ? "; at the surface {surfacing_gradient_pct}, compartment {surfacing_compartment}."
                                 : "; the record ends in the water, at {ends_in_water_m}.");
    plmi_picture_begin(pictures, "loading", HEIGHT_PX, "Loading of the 16 compartments over time", &desc);
    plmi_picture_plot(pictures);
    for (int compartment = 0; compartment < PLM_COMPARTMENTS; compartment++) {
        ridge_draw(pictures, compartment);
    }
    plmi_picture_plot_end(pictures);
    measure_draw(pictures);
    for (int compartment = 0; compartment < PLM_COMPARTMENTS; compartment++) {
        half_time_words(pictures, compartment);
    }
    plmi_picture_end(pictures, true);
}
