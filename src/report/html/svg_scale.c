/*
 * Scales and round steps. Must not draw.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "report/html/svg.h"

double plmi_svg_scale_pct(const struct plmi_svg_scale *scale, double value)
{
    double share =
        scale->to > scale->from || scale->to < scale->from ? (value - scale->from) / (scale->to - scale->from) : 0;
    return scale->at_from_pct + share * (scale->at_to_pct - scale->at_from_pct);
}

double plmi_svg_scale_held_pct(const struct plmi_svg_scale *scale, double value)
{
    double pct = plmi_svg_scale_pct(scale, value);
    double low = fmin(scale->at_from_pct, scale->at_to_pct), high = fmax(scale->at_from_pct, scale->at_to_pct);
    return isnan(pct) ? pct : fmin(fmax(pct, low), high);
}

double plmi_svg_step(double span, int most)
{
    double step = pow(10, floor(log10(span / most)));
    static const double rounds[] = {1, 2, 5, 10};
    for (size_t i = 0; i < sizeof rounds / sizeof rounds[0]; i++) {
        if (span / (rounds[i] * step) <= most) {
            return rounds[i] * step;
        }
    }
    return 10 * step;
}

double plmi_svg_time_step_s(double span_s, int most)
{
    static const double minutes[] = {1, 2, 5, 10, 15, 20, 30, 60, 120, 240, 480};
    for (size_t i = 0; i < sizeof minutes / sizeof minutes[0]; i++) {
        if (span_s <= minutes[i] * 60 * most) {
            return minutes[i] * 60;
        }
    }
    return 3600 * plmi_svg_step(span_s / 3600, most);
}
