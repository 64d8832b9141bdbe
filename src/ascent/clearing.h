/*
 * When one compartment meets its limit, at constant inspired pressures: roots in time.
 * Must not know of depths or stops.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_ASCENT_CLEARING_H
#define PLM_ASCENT_CLEARING_H

/*
 * One compartment on arrival at the next depth, after a wait of t [s] and the travel:
 * tensions n2_end + n2_gap exp(-n2_k t) and likewise helium, against the limit there.
 */
struct plmi_clearing {
    double n2_end_bar, n2_gap_bar, n2_k; /* k [1/s] */
    double he_end_bar, he_gap_bar, he_k;
    double n2_a_bar, n2_b, he_a_bar, he_b;
    double ambient_bar, gf_frac; /* at the next depth */
};

/* [bar] tension over what is allowed after a wait of t_s; rate [bar/s] its slope, curve [bar/s2] about its second. */
double plmi_clearing_over_bar(const struct plmi_clearing *clearing, double t_s, double *rate_bar_s,
                              double *curve_bar_s2);

/*
 * [s] the wait after which over_bar first falls to 0 (within 1e-11 bar); 0 where it is not above 0 at t = 0.
 * Returns: INFINITY when it has not by max_s.
 * Method: the root in x = exp(-k t), nearly a line where one gas rules; steps outside of the bracket
 * are halved. At most 200 steps.
 */
double plmi_clearing_fall_s(const struct plmi_clearing *clearing, double max_s);

/* [s] the wait after which over_bar rises to 0, from at or below 0 at t = 0; max_s when it is not above 0 by then. */
double plmi_clearing_rise_s(const struct plmi_clearing *clearing, double max_s);

#endif
