/*
 * OKLab to sRGB. Source: B. Ottosson, "A perceptual color space for image processing", 2020 (matrices); IEC 61966-2-1
 * (transfer curve). Must not choose colours.
 * SPDX-License-Identifier: MIT
 */
#include "report/html/palette.h"

#include <math.h>
#include <stdbool.h>
#include <stdio.h>

#define DEGREE       0.017453292519943295
#define CHROMA_STEPS 24
/* What rounding to a byte hides anyway. */
#define EDGE 5e-4

/* Linear sRGB, outside 0..1 where sRGB lacks the colour. */
static void linear_find(double rgb[3], const struct plmi_palette_colour *colour)
{
    double a = colour->chroma * cos(colour->hue_deg * DEGREE), b = colour->chroma * sin(colour->hue_deg * DEGREE);
    double l = colour->lightness + 0.3963377774 * a + 0.2158037573 * b;
    double m = colour->lightness - 0.1055613458 * a - 0.0638541728 * b;
    double s = colour->lightness - 0.0894841775 * a - 1.2914855480 * b;
    l = l * l * l;
    m = m * m * m;
    s = s * s * s;
    rgb[0] = 4.0767416621 * l - 3.3077115913 * m + 0.2309699292 * s;
    rgb[1] = -1.2684380046 * l + 2.6097574011 * m - 0.3413193965 * s;
    rgb[2] = -0.0041960863 * l - 0.7034186147 * m + 1.7076147010 * s;
}

static bool in_srgb(const double rgb[3])
{
    bool in = true;
    for (int i = 0; i < 3; i++) {
        in = in && rgb[i] >= -EDGE && rgb[i] <= 1 + EDGE;
    }
    return in;
}

static int byte_of(double linear)
{
    double held = fmin(fmax(linear, 0), 1);
    double shown = held <= 0.0031308 ? 12.92 * held : 1.055 * pow(held, 1 / 2.4) - 0.055;
    return (int)lround(shown * 255);
}

struct plmi_palette_hex plmi_palette_hex(const struct plmi_palette_colour *colour)
{
    struct plmi_palette_colour held = *colour;
    double rgb[3], low = 0, high = colour->chroma;
    linear_find(rgb, &held);
    for (int i = 0; i < CHROMA_STEPS && (i > 0 || !in_srgb(rgb)); i++) {
        held.chroma = (low + high) / 2;
        linear_find(rgb, &held);
        if (in_srgb(rgb)) {
            low = held.chroma;
        } else {
            high = held.chroma;
        }
    }
    struct plmi_palette_hex hex;
    snprintf(hex.text, sizeof hex.text, "#%02x%02x%02x", (unsigned)byte_of(rgb[0]) & 0xFF,
             (unsigned)byte_of(rgb[1]) & 0xFF, (unsigned)byte_of(rgb[2]) & 0xFF);
    return hex;
}

struct plmi_palette_colour plmi_palette_between(const struct plmi_palette_colour *from,
                                                const struct plmi_palette_colour *to, int index, int count)
{
    double share = count > 1 ? (double)index / (count - 1) : 0;
    return (struct plmi_palette_colour){
        .lightness = from->lightness + share * (to->lightness - from->lightness),
        .chroma = from->chroma + share * (to->chroma - from->chroma),
        .hue_deg = from->hue_deg + share * (to->hue_deg - from->hue_deg),
    };
}
