/*
 * Colours that people see in even steps: lightness rises by the same amount from one to the next, so that they are
 * distinguished in grey too. Computed in OKLab. Must not know what they stand for.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REPORT_HTML_PALETTE_H
#define PLM_REPORT_HTML_PALETTE_H

/* A colour by lightness 0..1, chroma and hue [degrees] of OKLab. */
struct plmi_palette_colour {
    double lightness, chroma, hue_deg;
};

/* "#rrggbb" of sRGB. Chroma is lowered as far as sRGB needs; lightness and hue stay. */
struct plmi_palette_hex {
    char text[8];
};
struct plmi_palette_hex plmi_palette_hex(const struct plmi_palette_colour *colour);

/* Colour index of count, on the straight way from one colour to another by lightness, chroma and hue. */
struct plmi_palette_colour plmi_palette_between(const struct plmi_palette_colour *from,
                                                const struct plmi_palette_colour *to, int index, int count);

#endif
