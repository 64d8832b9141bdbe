/*
 * Oxygen doses: CNS percent, 24 h percent, OTU, ESOT, as exact integrals over linear ramps of PO2. Pure.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_TISSUE_OXYGEN_H
#define PLM_TISSUE_OXYGEN_H

/* [%] of the NOAA single-exposure (or 24 h) allowance per minute at a constant PO2; 0 below 0.5 bar. Above 1.6, where
 * no limit is published, that of the last row, 45 min and 150 min for 24 h: what is counted there is the least that it
 * can be. */
double plmi_cns_rate_pct_min(double po2_bar);
double plmi_cns_day_rate_pct_min(double po2_bar);
/* [min] the limits themselves, INFINITY below 0.5 bar. */
double plmi_cns_limit_min(double po2_bar);
double plmi_cns_day_limit_min(double po2_bar);
/* Doses over a linear ramp p0 -> p1 in dt_min; p0 = p1 allowed; split at every row by the function itself. */
double plmi_cns_pct(double p0_bar, double p1_bar, double dt_min);
double plmi_cns_day_pct(double p0_bar, double p1_bar, double dt_min);
double plmi_otu(double p0_bar, double p1_bar, double dt_min);
double plmi_esot(double p0_bar, double p1_bar, double dt_min);
/* CNS percent left after dt_min at the surface, half_time_min (rules). */
double plmi_cns_decay_pct(double cns_pct, double dt_min, double half_time_min);
/* [OTU] REPEX allowance per day and in total after a run of days, 1..30; beyond 30: 300 a day. */
double plmi_otu_daily_allowed(int days);
double plmi_otu_total_allowed(int days);
/* [min] minutes of the ramp spent above limit_bar. */
double plmi_minutes_above(double p0_bar, double p1_bar, double dt_min, double limit_bar);

#endif
