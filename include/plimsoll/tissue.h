/*
 * The state of 16 model compartments, and the limits laid on them. Pure.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_TISSUE_H
#define PLM_TISSUE_H

#include <plimsoll/api.h>

#ifdef __cplusplus
extern "C" {
#endif

#define PLM_COMPARTMENTS 16

/* Inert gas tensions [bar], compartment 1 (5 min, row 1b) to 16. A plain value. */
struct plm_tissue {
    double n2_bar[PLM_COMPARTMENTS], he_bar[PLM_COMPARTMENTS];
};

/* Half-times and limits of one variant; const tables plm_zhl16('A'|'B'|'C'). */
struct plm_zhl16 {
    const char *name; /* "ZH-L16C" */
    double n2_half_time_min[PLM_COMPARTMENTS], n2_a_bar[PLM_COMPARTMENTS], n2_b[PLM_COMPARTMENTS];
    double he_half_time_min[PLM_COMPARTMENTS], he_a_bar[PLM_COMPARTMENTS], he_b[PLM_COMPARTMENTS];
};

/* variant 0, 1, 2 for A, B, C (as rules->model). NULL for anything else. */
PLM_API const struct plm_zhl16 *plm_zhl16_get(int variant);

/* Saturated with air at the surface: (surface - vapour) * air_n2_frac, no helium. */
PLM_API struct plm_tissue plm_tissue_saturated(double surface_bar, double vapour_bar, double air_n2_frac);

/*
 * Time on air at the surface until the inert gas of every compartment is near saturation with air and stays so.
 *   variant        0, 1, 2 for A, B, C
 *   saturated_bar  [bar] inert gas of a saturated compartment, > 0: plm_tissue_saturated tells it
 *   frac           how near, as a fraction of saturated_bar, > 0; above and below count alike
 * Returns: [s], 0 where it is near already; NaN for an argument out of range.
 */
PLM_API double plm_tissue_rest_s(const struct plm_tissue *tissue, int variant, double saturated_bar, double frac);

#ifdef __cplusplus
}
#endif

#endif
