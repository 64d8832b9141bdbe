/*
 * Oxygen doses: CNS percent, 24 h percent, OTU, ESOT, as exact integrals over linear ramps of PO2. Pure.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_TISSUE_OXYGEN_H
#define PLM_TISSUE_OXYGEN_H

#include "tissue/oxygen_limits.h"

/* Doses over a linear ramp p0 -> p1 in dt_min; p0 = p1 allowed; split at every row by the function itself. */
double plmi_cns_pct(double p0_bar, double p1_bar, double dt_min);
double plmi_cns_day_pct(double p0_bar, double p1_bar, double dt_min);
double plmi_otu(double p0_bar, double p1_bar, double dt_min);
double plmi_esot(double p0_bar, double p1_bar, double dt_min);
/* CNS percent left after dt_min at the surface, half_time_min (rules). */
double plmi_cns_decay_pct(double cns_pct, double dt_min, double half_time_min);
/* [min] minutes of the ramp spent above limit_bar. */
double plmi_minutes_above(double p0_bar, double p1_bar, double dt_min, double limit_bar);

#endif
