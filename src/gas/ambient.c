/*
 * Pressure of water and air: depth to ambient pressure and back, the standard atmosphere.
 * Must not know of breathing or tissues.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <plimsoll/gas.h>

/* [m/s2] standard gravity, as defined by the 3rd CGPM 1901. */
static const double gravity_m_s2 = 9.80665;
/* [Pa/bar] */
static const double pascal_per_bar = 1e5;

/* Standard atmosphere (ICAO): pressure and temperature at sea level, lapse rate, and the
 * exponent g M / (R L). */
static const double sea_level_bar = 1.01325;
static const double sea_level_k = 288.15;
static const double lapse_k_m = 0.0065;
static const double pressure_exponent = 5.25588;

double plm_bar_per_m(double water_kg_m3)
{
    return water_kg_m3 * gravity_m_s2 / pascal_per_bar;
}

double plm_ambient_bar(double surface_bar, double depth_m, double water_kg_m3)
{
    return surface_bar + depth_m * plm_bar_per_m(water_kg_m3);
}

double plm_depth_m(double surface_bar, double ambient_bar, double water_kg_m3)
{
    return (ambient_bar - surface_bar) / plm_bar_per_m(water_kg_m3);
}

double plm_standard_atmosphere_bar(double altitude_m)
{
    if (!(altitude_m >= PLM_ALTITUDE_LEAST_M && altitude_m <= PLM_ALTITUDE_MOST_M)) {
        return (double)NAN;
    }
    return sea_level_bar * pow(1.0 - lapse_k_m * altitude_m / sea_level_k, pressure_exponent);
}
