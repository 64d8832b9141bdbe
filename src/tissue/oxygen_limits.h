/*
 * The tables of oxygen limits, and what they say at one PO2 or after one run of days. Const data and lookups only.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_TISSUE_OXYGEN_LIMITS_H
#define PLM_TISSUE_OXYGEN_LIMITS_H

#define PLMI_OXYGEN_ROWS 12

/* [min] limits at plmi_oxygen_row_bar, linear between. */
struct plmi_oxygen_table {
    double limit_min[PLMI_OXYGEN_ROWS];
};

extern const struct plmi_oxygen_table plmi_oxygen_single, plmi_oxygen_day;
extern const double plmi_oxygen_row_bar[PLMI_OXYGEN_ROWS];

/* Row at or below po2_bar, 0 .. rows - 2; held at the ends. */
int plmi_oxygen_row(double po2_bar);
/* [min] INFINITY below the first row, that of the last row above it; NaN for NaN. */
double plmi_oxygen_limit_min(const struct plmi_oxygen_table *table, double po2_bar);

/* [%] of the NOAA single-exposure (or 24 h) allowance per minute at a constant PO2; 0 below 0.5 bar. Above 1.6, where
 * no limit is published, that of the last row, 45 min and 150 min for 24 h: what is counted there is the least that it
 * can be. */
double plmi_cns_rate_pct_min(double po2_bar);
double plmi_cns_day_rate_pct_min(double po2_bar);
/* [min] the limits themselves, INFINITY below 0.5 bar. */
double plmi_cns_limit_min(double po2_bar);
double plmi_cns_day_limit_min(double po2_bar);
/* [OTU] REPEX allowance per day and in total after a run of days, 1..30; beyond 30: 300 a day. */
double plmi_otu_daily_allowed(int days);
double plmi_otu_total_allowed(int days);

#endif
