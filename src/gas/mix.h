/*
 * Breathing mixes and what is inspired of them: pure functions.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_GAS_MIX_H
#define PLM_GAS_MIX_H

#include <plimsoll/gas.h>

/* What the lung takes in at one moment. */
struct plmi_inspired {
    double n2_bar; /* inspired nitrogen (argon with it), alveolar vapour taken off */
    double he_bar;
    double o2_bar; /* oxygen as the oxygen clocks count it: on open circuit the fraction times ambient,
                      vapour not taken off (NOAA tables); on the loop its PO2, at most ambient */
};

/* Water-vapour-corrected inspired pressures, open circuit. vapour_bar [bar] rules->water_vapour_bar. */
struct plmi_inspired plmi_inspired_open(const struct plm_mix *mix, double ambient_bar, double vapour_bar);
/* On a closed loop: o2 = min(loop_po2, ambient), inert = max(0, ambient - vapour - o2) split as the diluent's N2 : He.
 * A diluent of pure oxygen: the loop holds oxygen alone, at ambient pressure, whatever loop_po2 says. */
struct plmi_inspired plmi_inspired_loop(const struct plm_mix *diluent, double ambient_bar, double loop_po2_bar,
                                        double vapour_bar);

/* The mix has no inert gas. */
bool plmi_mix_is_oxygen(const struct plm_mix *mix);

/* Density of the gas breathed [g/L] at 0 C from its partial pressures; ideal gas. */
double plmi_density_open_g_l(const struct plm_mix *mix, double ambient_bar);
double plmi_density_loop_g_l(const struct plm_mix *diluent, double ambient_bar, double loop_po2_bar);
/* Equivalent narcotic depth [m]: narcotic partial pressures (N2, and O2 if o2_narcotic) as air has them at that depth;
 * may be negative -> 0. */
double plmi_end_m(double n2_bar, double o2_bar, double surface_bar, double bar_per_m, bool o2_narcotic);

#endif
