/*
 * Oxygen doses over linear ramps of PO2, as exact integrals.
 * Must not judge: limits are rules of the floors above.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "tissue/oxygen.h"

/* Below this the oxygen dose OTU does not count [atm, taken as bar], and the unit that it is
 * scaled by. Source: REPEX 1988; t ((PO2 - 0.5)/0.5)^(5/6). */
static const double otu_threshold_bar = 0.5;
/* Source: t PO2^2.285, Risberg and van Ooij 2022 (from memory); the root of t^2 PO2^4.57, Arieli
 * et al., J Appl Physiol 2002;92:248. */
static const double esot_power = 2.285;

/* Both ends in order and usable. A fall in PO2 gives the same dose as the rise. */
static int ordered(double *p0_bar, double *p1_bar, double dt_min)
{
    if (!(isfinite(*p0_bar) && isfinite(*p1_bar) && dt_min >= 0.0)) {
        return 0;
    }
    if (*p0_bar > *p1_bar) {
        double high_bar = *p0_bar;
        *p0_bar = *p1_bar;
        *p1_bar = high_bar;
    }
    return 1;
}

/* Share of a ramp from p0 to p1 (p0 <= p1) that lies between low and high. The differences of near
 * numbers are exact, so a short ramp loses nothing. */
static double share_between(double p0, double p1, double low, double high)
{
    double from = p0 > low ? p0 : low;
    double to = p1 < high ? p1 : high;
    if (p0 == p1) {
        return p0 >= low && p0 < high ? 1.0 : 0.0;
    }
    return to > from ? (to - from) / (p1 - p0) : 0.0;
}

/* [min] mean of 1/limit over a piece inside one row, times its length: a logarithm. */
static double row_dose(const struct plmi_oxygen_table *table, int row, double p0, double p1)
{
    double slope =
        (table->limit_min[row + 1] - table->limit_min[row]) / (plmi_oxygen_row_bar[row + 1] - plmi_oxygen_row_bar[row]);
    double limit_min = table->limit_min[row] + slope * (p0 - plmi_oxygen_row_bar[row]);
    double x = slope * (p1 - p0) / limit_min;
    if (fabs(x) > 1e-3) {
        return log1p(x) / x / limit_min;
    }
    /* ln(1 + x)/x by its series, whose next term is below 2e-16 of it. */
    return (1.0 - x * (1.0 / 2.0 - x * (1.0 / 3.0 - x * (1.0 / 4.0 - x / 5.0)))) / limit_min;
}

static double limit_pct(const struct plmi_oxygen_table *table, double p0, double p1, double dt_min)
{
    const int last = PLMI_OXYGEN_ROWS - 1;
    const double top_bar = plmi_oxygen_row_bar[last];
    if (!ordered(&p0, &p1, dt_min)) {
        return (double)NAN;
    }
    double dose = 0.0;
    if (p1 >= plmi_oxygen_row_bar[0] && p0 <= top_bar) {
        int to = plmi_oxygen_row(p1);
        for (int row = plmi_oxygen_row(p0); row <= to; row++) {
            double low = plmi_oxygen_row_bar[row], high = plmi_oxygen_row_bar[row + 1];
            /* The last row holds its upper end for a constant pressure. */
            double share = p0 == p1 && p0 == top_bar ? 1.0 : share_between(p0, p1, low, high);
            if (share > 0.0) {
                dose += share * row_dose(table, row, fmax(p0, low), fmin(p1, high));
            }
        }
    }
    if (p1 > top_bar) {
        dose += share_between(p0, p1, top_bar, (double)INFINITY) / table->limit_min[last];
    }
    return 100.0 * dt_min * dose;
}

double plmi_cns_pct(double p0_bar, double p1_bar, double dt_min)
{
    return limit_pct(&plmi_oxygen_single, p0_bar, p1_bar, dt_min);
}

double plmi_cns_day_pct(double p0_bar, double p1_bar, double dt_min)
{
    return limit_pct(&plmi_oxygen_day, p0_bar, p1_bar, dt_min);
}

/*
 * Mean of x^power for x running evenly from x0 to x1, 0 <= x0 <= x1.
 * A narrow range by the series about its middle, whose next term is below 1e-17: the difference of
 * powers would lose digits there.
 */
static double mean_power(double x0, double x1, double power)
{
    double middle = 0.5 * (x0 + x1);
    if (!(middle > 0.0)) {
        return 0.0;
    }
    double half = 0.5 * (x1 - x0) / middle;
    if (half > 0.01) {
        double sum = power + 1.0;
        return (pow(x1, sum) - pow(x0, sum)) / (sum * (x1 - x0));
    }
    double square = half * half;
    double c2 = power * (power - 1.0) / 2.0;
    double c4 = c2 * (power - 2.0) * (power - 3.0) / 12.0;
    double c6 = c4 * (power - 4.0) * (power - 5.0) / 30.0;
    double series = 1.0 + square * (c2 / 3.0 + square * (c4 / 5.0 + square * c6 / 7.0));
    return pow(middle, power) * series;
}

double plmi_otu(double p0_bar, double p1_bar, double dt_min)
{
    const double power = 5.0 / 6.0;
    if (!ordered(&p0_bar, &p1_bar, dt_min)) {
        return (double)NAN;
    }
    double share = share_between(p0_bar, p1_bar, otu_threshold_bar, (double)INFINITY);
    if (!(share > 0.0)) {
        return 0.0;
    }
    double x0 = fmax(0.0, (p0_bar - otu_threshold_bar) / 0.5);
    double x1 = (p1_bar - otu_threshold_bar) / 0.5;
    return dt_min * share * mean_power(x0, x1, power);
}

double plmi_esot(double p0_bar, double p1_bar, double dt_min)
{
    if (!ordered(&p0_bar, &p1_bar, dt_min)) {
        return (double)NAN;
    }
    double share = share_between(p0_bar, p1_bar, 0.0, (double)INFINITY);
    return share > 0.0 ? dt_min * share * mean_power(fmax(0.0, p0_bar), p1_bar, esot_power) : 0.0;
}

double plmi_cns_decay_pct(double cns_pct, double dt_min, double half_time_min)
{
    if (!(dt_min >= 0.0 && half_time_min > 0.0)) {
        return (double)NAN;
    }
    return cns_pct * exp2(-dt_min / half_time_min);
}

double plmi_minutes_above(double p0_bar, double p1_bar, double dt_min, double limit_bar)
{
    if (!ordered(&p0_bar, &p1_bar, dt_min)) {
        return (double)NAN;
    }
    if (p0_bar == p1_bar) {
        return p0_bar > limit_bar ? dt_min : 0.0;
    }
    return dt_min * share_between(p0_bar, p1_bar, limit_bar, (double)INFINITY);
}
