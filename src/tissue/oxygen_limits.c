/*
 * How long an oxygen pressure may be breathed: the NOAA limits and the REPEX days.
 * Must not integrate: oxygen.c does.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <stddef.h>

#include "tissue/oxygen_limits.h"

/*
 * Source: NOAA Diving Manual, oxygen exposure limits (table 15-1 in the 3rd to 6th edition), at
 * 0.6, 0.7 .. 1.6 atm, taken as bar. The entry at 0.5 is the convention that the line from 0.5 to
 * 0.6 runs from 900 to 720 min; below 0.5 nothing is counted.
 */
const struct plmi_oxygen_table plmi_oxygen_single = {{900, 720, 570, 450, 360, 300, 240, 210, 180, 150, 120, 45}};
const struct plmi_oxygen_table plmi_oxygen_day = {{900, 720, 570, 450, 360, 300, 270, 240, 210, 180, 180, 150}};

const double plmi_oxygen_row_bar[PLMI_OXYGEN_ROWS] = {0.5, 0.6, 0.7, 0.8, 0.9, 1.0, 1.1, 1.2, 1.3, 1.4, 1.5, 1.6};

int plmi_oxygen_row(double po2_bar)
{
    int row = (int)((po2_bar - 0.5) * 10.0);
    row = row < 0 ? 0 : row > PLMI_OXYGEN_ROWS - 2 ? PLMI_OXYGEN_ROWS - 2 : row;
    while (row > 0 && po2_bar < plmi_oxygen_row_bar[row]) {
        row--;
    }
    while (row < PLMI_OXYGEN_ROWS - 2 && po2_bar >= plmi_oxygen_row_bar[row + 1]) {
        row++;
    }
    return row;
}

double plmi_oxygen_limit_min(const struct plmi_oxygen_table *table, double po2_bar)
{
    const int last = PLMI_OXYGEN_ROWS - 1;
    if (po2_bar < plmi_oxygen_row_bar[0]) {
        return (double)INFINITY;
    }
    if (isnan(po2_bar)) {
        return po2_bar;
    }
    /* No limit is published above the last row, and none is made up. */
    if (po2_bar > plmi_oxygen_row_bar[last]) {
        return table->limit_min[last];
    }
    int row = plmi_oxygen_row(po2_bar);
    double from_bar = plmi_oxygen_row_bar[row];
    double share = (po2_bar - from_bar) / (plmi_oxygen_row_bar[row + 1] - from_bar);
    return table->limit_min[row] + share * (table->limit_min[row + 1] - table->limit_min[row]);
}

double plmi_cns_limit_min(double po2_bar)
{
    return plmi_oxygen_limit_min(&plmi_oxygen_single, po2_bar);
}

double plmi_cns_day_limit_min(double po2_bar)
{
    return plmi_oxygen_limit_min(&plmi_oxygen_day, po2_bar);
}

double plmi_cns_rate_pct_min(double po2_bar)
{
    return 100.0 / plmi_cns_limit_min(po2_bar);
}

double plmi_cns_day_rate_pct_min(double po2_bar)
{
    return 100.0 / plmi_cns_day_limit_min(po2_bar);
}

/*
 * OTU allowed on each of so many days in a row, index 0 for one day.
 * Source: Hamilton, Kenyon, Peterson, REPEX, NOAA 1988; day 1 and the floor of 300 seen
 * second-hand, the others from memory.
 */
static const double otu_daily[] = {850, 700, 620, 525, 460, 420, 380, 350, 330, 310, 300};
/* The totals as published: not all are days times the daily figure (rounded there). */
static const double otu_total[] = {850, 1400, 1860, 2100, 2300, 2520, 2660, 2800, 2970, 3100, 3300};

double plmi_otu_daily_allowed(int days)
{
    const int listed = (int)(sizeof otu_daily / sizeof otu_daily[0]);
    return days < 1 ? 0.0 : otu_daily[(days < listed ? days : listed) - 1];
}

double plmi_otu_total_allowed(int days)
{
    const int listed = (int)(sizeof otu_total / sizeof otu_total[0]);
    if (days < 1) {
        return 0.0;
    }
    return days <= listed ? otu_total[days - 1] : otu_daily[listed - 1] * days;
}
