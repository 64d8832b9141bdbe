/*
 * Breathing mixes, breathing modes and ambient pressure.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_GAS_H
#define PLM_GAS_H

#include <stdbool.h>
#include <stddef.h>

#include <plimsoll/api.h>

#ifdef __cplusplus
extern "C" {
#endif

/* A mix by volume fractions 0..1; n2_frac holds argon too and is 1 - o2 - he. */
struct plm_mix {
    double o2_frac, he_frac, n2_frac;
};

enum plm_mode { PLM_MODE_OPEN, PLM_MODE_CLOSED, PLM_MODE_SEMICLOSED };

/* What can surround a dive, wherever it is stated: pressures from above the highest lakes that were dived to below
 * the Dead Sea, heights of the standard atmosphere, water from fresh and hot to heavy with salt. */
#define PLM_SURFACE_LEAST_BAR 0.4
#define PLM_SURFACE_MOST_BAR  1.2
#define PLM_ALTITUDE_LEAST_M  (-500.0)
#define PLM_ALTITUDE_MOST_M   9000.0
#define PLM_WATER_LEAST_KG_M3 900.0
#define PLM_WATER_MOST_KG_M3  1100.0

/* "open", "closed", "semiclosed". */
PLM_API const char *plm_mode_text(enum plm_mode mode);

/* Pressure of the water column [bar/m]: density * 9.80665 / 1e5. */
PLM_API double plm_bar_per_m(double water_kg_m3);
/* [bar] by depth below the surface; depth may be slightly negative. */
PLM_API double plm_ambient_bar(double surface_bar, double depth_m, double water_kg_m3);
/* [m] the depth at which ambient_bar rules. */
PLM_API double plm_depth_m(double surface_bar, double ambient_bar, double water_kg_m3);
/*
 * [bar] surface pressure by altitude_m [m] -500..9000; NaN outside.
 * Source: standard atmosphere, 1013.25 (1 - 0.0065 h / 288.15)^5.25588 hPa.
 */
PLM_API double plm_standard_atmosphere_bar(double altitude_m);
/* "18/45", "air", "oxygen", "nitrox 32" into buffer (at least 24 bytes); air is 0.205..0.215 O2 without He. Returns
 * buffer. */
PLM_API char *plm_mix_name(const struct plm_mix *mix, char *buffer, size_t size);

#ifdef __cplusplus
}
#endif

#endif
