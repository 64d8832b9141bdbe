/*
 * A number made into a short text for a message, without memory and without a locale.
 * Not for data: number.h writes those.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_BASE_FIGURE_H
#define PLM_BASE_FIGURE_H

/* The text of a number; used as plmi_figure(x, 1).text within one expression. */
struct plmi_figure {
    char text[48];
};

/* Rounded to digits (0..6) behind the point: plmi_figure(1.3, 2) is "1.30". "unknown" for NaN, "huge" from 1e12. */
struct plmi_figure plmi_figure(double value, int digits);
/* The same without zeros at the end: plmi_figure_short(1.3, 3) is "1.3". */
struct plmi_figure plmi_figure_short(double value, int digits);

#endif
