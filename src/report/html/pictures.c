/*
 * What the pictures of a dive share: the axis of time, room to draw in, lines and words. Must not know what is drawn.
 * SPDX-License-Identifier: MIT
 */
#include "report/html/pictures.h"

#include <math.h>
#include <stdlib.h>

/* [px] from the lower edge to the words of the axis of time */
#define TIME_WORDS_PX 4.0

bool plmi_pictures_init(struct plmi_pictures *pictures, struct plmi_text *out, const struct plmi_view *view,
                        const struct plmi_curves *curves, const char *id)
{
    const size_t most = curves->count > curves->plan_count ? curves->count : curves->plan_count;
    const size_t room = 2 * most + 4; /* steps have two dots a sample; rooms have two ends more */
    *pictures = (struct plmi_pictures){.out = out, .view = view, .curves = curves, .id = id};
    pictures->until_s = fmax(curves->column[PLMI_CURVES_TIME][curves->count - 1], 60);
    pictures->plot = (struct plmi_svg_plot){
        .out = out,
        .time = {0, pictures->until_s, 0, PLMI_PICTURES_SHARE_PCT},
        .time_s = curves->column[PLMI_CURVES_TIME],
        .count = curves->count,
        .dots = calloc(room, sizeof *pictures->plot.dots),
        .points = calloc(2 * room, sizeof *pictures->plot.points),
    };
    pictures->values = calloc(most, sizeof *pictures->values);
    return pictures->plot.dots != NULL && pictures->plot.points != NULL && pictures->values != NULL;
}

void plmi_pictures_free(struct plmi_pictures *pictures)
{
    free(pictures->plot.dots);
    free(pictures->plot.points);
    free(pictures->values);
}

void plmi_picture_begin(struct plmi_pictures *pictures, const char *name, double height_px, const char *title,
                        struct plmi_text *desc)
{
    pictures->plot.height_px = height_px;
    pictures->out->failed = pictures->out->failed || desc->failed;
    plmi_svg_begin(pictures->out, name, (int)height_px,
                   &(struct plmi_svg_name){title, desc->bytes != NULL ? desc->bytes : ""});
    plmi_text_free(desc);
    plmi_svg_time_lines(&pictures->plot, pictures->until_s);
}

void plmi_picture_end(struct plmi_pictures *pictures, bool times)
{
    if (times) {
        plmi_svg_time_words(&pictures->plot, pictures->until_s,
                            plmi_picture_pct(pictures, pictures->plot.height_px - TIME_WORDS_PX));
    }
    plmi_svg_end(pictures->out);
}

void plmi_picture_plot(struct plmi_pictures *pictures)
{
    plmi_svg_plot_begin(pictures->out, PLMI_SVG_WIDTH_PX * PLMI_SVG_PER_PX,
                        (int)lround(pictures->plot.height_px * PLMI_SVG_PER_PX));
}

void plmi_picture_plot_end(struct plmi_pictures *pictures)
{
    plmi_svg_plot_end(pictures->out);
}

void plmi_picture_level(struct plmi_pictures *pictures, const char *class_name, double y_pct, const char *words)
{
    plmi_svg_line(pictures->out, class_name, 0, y_pct, PLMI_PICTURES_SHARE_PCT, y_pct);
    plmi_svg_text(pictures->out, "level", PLMI_PICTURES_WORDS_PCT, y_pct, words);
}

double plmi_picture_pct(const struct plmi_pictures *pictures, double y_px)
{
    return y_px / pictures->plot.height_px * 100;
}

void plmi_picture_curve(struct plmi_pictures *pictures, const char *class_name, enum plmi_curves_column column,
                        const struct plmi_svg_scale *scale, bool step)
{
    if (pictures->curves->known[column]) {
        plmi_svg_curve(&pictures->plot, class_name, pictures->curves->column[column], scale, step);
    }
}

/* How far values[i] is beyond. */
static double beyond(const double *values, const double *limit, double limit_value, int way, size_t i)
{
    return way * (values[i] - (limit != NULL ? limit[i] : limit_value));
}

void plmi_picture_beyond(struct plmi_pictures *pictures, const double *values, const double *limit, double limit_value,
                         int way, const struct plmi_svg_scale *scale)
{
    const size_t count = pictures->curves->count;
    bool any = false;
    for (size_t i = 0; i < count; i++) {
        bool over = beyond(values, limit, limit_value, way, i) > 0;
        bool beside = (i > 0 && beyond(values, limit, limit_value, way, i - 1) > 0) ||
                      (i + 1 < count && beyond(values, limit, limit_value, way, i + 1) > 0);
        pictures->values[i] = over ? values[i] : !beside ? (double)NAN : limit != NULL ? limit[i] : limit_value;
        any = any || over;
    }
    if (any) {
        plmi_svg_room(&pictures->plot, "above", pictures->values, limit, limit_value, scale);
    }
}
