/*
 * The tables of oxygen limits, for the integrals over them. Const data and lookups only.
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

#endif
