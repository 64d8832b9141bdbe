/*
 * What was breathed, as a band under the picture of depth. Must not name a mix anew.
 * SPDX-License-Identifier: MIT
 */
#include <stdio.h>

#include "report/html/pictures.h"

#define HEIGHT_PX 44
#define BAND_PX   22
/* Colours there are for mixes; more begin anew. */
#define COLOURS 6

static void stretch_draw(struct plmi_pictures *pictures, size_t from, size_t to)
{
    const struct plmi_curves *curves = pictures->curves;
    const size_t breathed = (size_t)curves->column[PLMI_CURVES_BREATHED][from];
    double x_pct = plmi_svg_scale_pct(&pictures->plot.time, curves->column[PLMI_CURVES_TIME][from]);
    double to_pct = plmi_svg_scale_pct(&pictures->plot.time, curves->column[PLMI_CURVES_TIME][to]);
    char class_name[32];
    snprintf(class_name, sizeof class_name, "mix m%zu", breathed % COLOURS + 1);
    plmi_svg_part_begin(pictures->out, class_name, x_pct, 0, to_pct - x_pct, plmi_picture_pct(pictures, BAND_PX));
    plmi_svg_rect(pictures->out, "", 0, 0, 100, 100);
    plmi_svg_at_begin(pictures->out, "", 0, 50);
    plmi_text_puts(pictures->out, "<text x=\"6\">");
    plmi_text_puts(pictures->out, curves->breathed[breathed]);
    plmi_text_puts(pictures->out, "</text>");
    plmi_svg_at_end(pictures->out);
    plmi_svg_part_end(pictures->out);
}

void plmi_picture_mixes(struct plmi_pictures *pictures)
{
    const struct plmi_curves *curves = pictures->curves;
    const double *breathed = curves->column[PLMI_CURVES_BREATHED];
    struct plmi_text desc;
    plmi_text_init(&desc);
    for (size_t i = 0; i < curves->breathed_count; i++) {
        plmi_text_printf(&desc, "%s%s", i > 0 ? ", then " : "", curves->breathed[i]);
    }
    plmi_picture_begin(pictures, "mixes", HEIGHT_PX, "Mixes breathed over time", &desc);
    for (size_t from = 0, to; from + 1 < curves->count; from = to) {
        to = from + 1;
        while (to + 1 < curves->count && breathed[to] <= breathed[from] && breathed[to] >= breathed[from]) {
            to++;
        }
        stretch_draw(pictures, from, to);
    }
    plmi_picture_end(pictures, true);
}
