/*
 * Pressures, densities and narcosis against the facts of gas.ref.
 * SPDX-License-Identifier: MIT
 */
#include "gas/mix.h"
#include "support/facts.h"

static const double sea_level_bar = 1.01325;
static const double en13319_bar_per_m = 0.1;

static struct plm_mix mix_of(double o2_frac, double he_frac)
{
    return (struct plm_mix){o2_frac, he_frac, 1.0 - o2_frac - he_frac};
}

static double standard_atmosphere(const double *x)
{
    return plm_standard_atmosphere_bar(x[0]);
}

static double sea_level_depth(const double *x)
{
    return x[0] * plm_standard_atmosphere_bar(0.0) / plm_standard_atmosphere_bar(x[1]);
}

static double altitude_stop(const double *x)
{
    return x[0] * plm_standard_atmosphere_bar(x[1]) / plm_standard_atmosphere_bar(0.0);
}

static double bar_per_m(const double *x)
{
    return plm_bar_per_m(x[0]);
}

static double ambient(const double *x)
{
    return plm_ambient_bar(x[0], x[1], x[2]);
}

static double depth(const double *x)
{
    return plm_depth_m(x[0], x[1], x[2]);
}

static double density(const double *x)
{
    struct plm_mix mix = mix_of(x[0], x[1]);
    return plmi_density_open_g_l(&mix, x[2]);
}

static double loop_density(const double *x)
{
    struct plm_mix mix = mix_of(x[0], x[1]);
    return plmi_density_loop_g_l(&mix, x[2], x[3]);
}

static double end(const double *x)
{
    double ambient_bar = sea_level_bar + en13319_bar_per_m * x[2];
    double n2_bar = ambient_bar * (1.0 - x[0] - x[1]);
    return plmi_end_m(n2_bar, ambient_bar * x[0], sea_level_bar, en13319_bar_per_m, x[3] > 0.0);
}

static double inspired_n2(const double *x)
{
    struct plm_mix mix = mix_of(x[0], x[1]);
    return plmi_inspired_open(&mix, x[2], 0.0627).n2_bar;
}

static struct plmi_inspired loop_of(const double *x)
{
    struct plm_mix diluent = mix_of(x[0], x[1]);
    return plmi_inspired_loop(&diluent, x[2], x[3], 0.0627);
}

static double loop_n2(const double *x)
{
    return loop_of(x).n2_bar;
}

static double loop_he(const double *x)
{
    return loop_of(x).he_bar;
}

static double loop_o2(const double *x)
{
    return loop_of(x).o2_bar;
}

int main(void)
{
    static const struct fact_function functions[] = {
        {"standard_atmosphere_bar", 1, standard_atmosphere},
        {"sea_level_depth_fsw", 2, sea_level_depth},
        {"altitude_stop_fsw", 2, altitude_stop},
        {"bar_per_m", 1, bar_per_m},
        {"ambient_bar", 3, ambient},
        {"depth_m", 3, depth},
        {"density_g_l", 3, density},
        {"loop_density_g_l", 4, loop_density},
        {"end_m", 4, end},
        {"inspired_n2_bar", 3, inspired_n2},
        {"loop_n2_bar", 4, loop_n2},
        {"loop_he_bar", 4, loop_he},
        {"loop_o2_bar", 4, loop_o2},
    };
    return facts_check("gas.ref", functions, sizeof functions / sizeof functions[0]);
}
