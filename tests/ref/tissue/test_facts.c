/*
 * Tables, limits, states, oxygen doses and defaults against the facts of mvalues.ref, tissue.ref,
 * oxygen.ref and rules.ref.
 * SPDX-License-Identifier: MIT
 */
#include <plimsoll/gas.h>
#include <plimsoll/rules.h>
#include <stdlib.h>

#include "support/facts.h"
#include "tissue/oxygen.h"
#include "tissue/tissue.h"

enum { A, B, C };

static int row(const double *x)
{
    return (int)x[0] - 1;
}

static double n2_m0(const double *x)
{
    const struct plm_zhl16 *b = plm_zhl16_get(B);
    return 10.0 * (b->n2_a_bar[row(x)] + 1.0 / b->n2_b[row(x)]);
}

static double he_m0(const double *x)
{
    const struct plm_zhl16 *b = plm_zhl16_get(B);
    return 10.0 * (b->he_a_bar[row(x)] + 1.0 / b->he_b[row(x)]);
}

static double n2_slope(const double *x)
{
    return 1.0 / plm_zhl16_get(B)->n2_b[row(x)];
}

static double he_slope(const double *x)
{
    return 1.0 / plm_zhl16_get(B)->he_b[row(x)];
}

static double n2_half_time(const double *x)
{
    return plm_zhl16_get(C)->n2_half_time_min[row(x)];
}

static double he_half_time(const double *x)
{
    return plm_zhl16_get(C)->he_half_time_min[row(x)];
}

static double n2_a_of_a(const double *x)
{
    return plm_zhl16_get(A)->n2_a_bar[row(x)];
}

static double n2_a_of_c(const double *x)
{
    return plm_zhl16_get(C)->n2_a_bar[row(x)];
}

static double n2_a_of_b(const double *x)
{
    return plm_zhl16_get(B)->n2_a_bar[row(x)];
}

static double he_a(const double *x)
{
    return plm_zhl16_get(B)->he_a_bar[row(x)];
}

static double he_b(const double *x)
{
    return plm_zhl16_get(C)->he_b[row(x)];
}

static double n2_b(const double *x)
{
    return plm_zhl16_get(A)->n2_b[row(x)];
}

/* The example is of the row of 4 min, which the model does not use: put in place of its first. */
static void weigh(const double *x, double *a_bar, double *b)
{
    struct plm_zhl16 model = *plm_zhl16_get(A);
    model.n2_a_bar[0] = 1.2599;
    model.n2_b[0] = 0.5050;
    model.he_a_bar[0] = 1.7424;
    model.he_b[0] = 0.4245;
    struct plm_tissue tissue = {.n2_bar = {x[0]}, .he_bar = {x[1]}};
    plmi_weighted_ab(&tissue, &model, 0, a_bar, b);
}

static double weighted_a(const double *x)
{
    double a_bar, b;
    weigh(x, &a_bar, &b);
    return a_bar;
}

static double weighted_b(const double *x)
{
    double a_bar, b;
    weigh(x, &a_bar, &b);
    return b;
}

static double saturated_n2(const double *x)
{
    return plm_tissue_saturated(x[0], 0.0627, 0.7902).n2_bar[7];
}

static double saturated_he(const double *x)
{
    return plm_tissue_saturated(x[0], 0.0627, 0.7902).he_bar[7];
}

static double ramp(const double *x)
{
    return plmi_ramp_bar(x[0], x[1], x[2], x[3], x[4]);
}

static double cns_limit(const double *x)
{
    return plmi_cns_limit_min(x[0]);
}

static double cns_day_limit(const double *x)
{
    return plmi_cns_day_limit_min(x[0]);
}

static double cns(const double *x)
{
    return plmi_cns_pct(x[0], x[1], x[2]);
}

static double cns_day(const double *x)
{
    return plmi_cns_day_pct(x[0], x[1], x[2]);
}

static double cns_decay(const double *x)
{
    return plmi_cns_decay_pct(x[0], x[1], x[2]);
}

static double otu(const double *x)
{
    return plmi_otu(x[0], x[1], x[2]);
}

static double esot(const double *x)
{
    return plmi_esot(x[0], x[1], x[2]);
}

static double esot_squared(const double *x)
{
    double dose = plmi_esot(x[0], x[0], x[1]);
    return dose * dose;
}

static double minutes_above(const double *x)
{
    return plmi_minutes_above(x[0], x[1], x[2], x[3]);
}

static double otu_daily(const double *x)
{
    return plmi_otu_daily_allowed((int)x[0]);
}

static double otu_total(const double *x)
{
    return plmi_otu_total_allowed((int)x[0]);
}

/* Navy: oxygen alone at a depth in fsw of 3.0643 kPa. */
static double limit_share_of_navy(const double *x)
{
    return plmi_cns_limit_min(1.01325 + 0.030643 * x[0]) / x[1];
}

static double vapour_over_mmhg(const double *x)
{
    return plm_rules_default().water_vapour_bar / (1.333224e-3 * x[0]);
}

static double vapour_at_quotient(const double *x)
{
    const double co2_bar = 0.0534;
    return plm_rules_default().water_vapour_bar - co2_bar * (1.0 - x[0]) / x[0];
}

static double fsw_kpa(const double *x)
{
    return 100.0 * 0.3048 * plm_bar_per_m(x[0]);
}

/* Rules by themselves or in another unit; the argument says how many times. */
#define RULE(name, value)               \
    static double name(const double *x) \
    {                                   \
        return x[0] * (value);          \
    }
RULE(rule_air_n2_frac, plm_rules_default().air_n2_frac)
RULE(rule_surface_default_mbar, 1000.0 * plm_rules_default().surface_default_bar)
RULE(rule_metres_a_bar, 1.0 / plm_bar_per_m(plm_rules_default().water_kg_m3))
RULE(rule_schedule_rate_fsw_min, plm_rules_default().schedule_rate_m_min / 0.3048)
RULE(rule_ascent_limit_m_min, plm_rules_default().ascent_limit_m_min)
RULE(rule_po2_max_bar, plm_rules_default().po2_max_bar)
RULE(rule_slack_atm, (plm_rules_default().po2_max_bar + plm_rules_default().deco_po2_slack_bar) / 1.01325)
RULE(rule_cns_half_time_min, plm_rules_default().cns_half_time_min)
RULE(rule_otu_day_max, plm_rules_default().otu_day_max)
RULE(rule_density_note_g_l, plm_rules_default().density_note_g_l)
RULE(rule_density_caution_g_l, plm_rules_default().density_caution_g_l)
RULE(rule_counterdiffusion_ratio, plm_rules_default().counterdiffusion_ratio)

#define COUNT(array) (sizeof(array) / sizeof(array)[0])

int main(void)
{
    static const struct fact_function tables[] = {
        {"n2_m0_msw", 1, n2_m0},
        {"he_m0_msw", 1, he_m0},
        {"n2_slope", 1, n2_slope},
        {"he_slope", 1, he_slope},
        {"n2_half_time_min", 1, n2_half_time},
        {"he_half_time_min", 1, he_half_time},
        {"n2_a_A_bar", 1, n2_a_of_a},
        {"n2_a_C_bar", 1, n2_a_of_c},
        {"n2_b", 1, n2_b},
        {"n2_a_B_bar", 1, n2_a_of_b},
        {"he_a_bar", 1, he_a},
        {"he_b", 1, he_b},
    };
    static const struct fact_function states[] = {
        {"weighted_a_bar", 2, weighted_a},     {"weighted_b", 2, weighted_b}, {"saturated_n2_bar", 1, saturated_n2},
        {"saturated_he_bar", 1, saturated_he}, {"ramp_bar", 5, ramp},
    };
    static const struct fact_function doses[] = {
        {"cns_limit_min", 1, cns_limit},
        {"cns_day_limit_min", 1, cns_day_limit},
        {"cns_pct", 3, cns},
        {"cns_day_pct", 3, cns_day},
        {"cns_decay_pct", 3, cns_decay},
        {"otu", 3, otu},
        {"esot", 3, esot},
        {"esot_squared", 2, esot_squared},
        {"minutes_above", 4, minutes_above},
        {"otu_daily", 1, otu_daily},
        {"otu_total", 1, otu_total},
        {"limit_share_of_navy", 2, limit_share_of_navy},
    };
    static const struct fact_function rules[] = {
        {"vapour_over_mmhg", 1, vapour_over_mmhg},
        {"vapour_at_quotient_bar", 1, vapour_at_quotient},
        {"fsw_kpa", 1, fsw_kpa},
        {"air_n2_frac", 1, rule_air_n2_frac},
        {"surface_default_mbar", 1, rule_surface_default_mbar},
        {"metres_a_bar", 1, rule_metres_a_bar},
        {"schedule_rate_fsw_min", 1, rule_schedule_rate_fsw_min},
        {"ascent_limit_m_min", 1, rule_ascent_limit_m_min},
        {"po2_max_bar", 1, rule_po2_max_bar},
        {"slack_atm", 1, rule_slack_atm},
        {"cns_half_time_min", 1, rule_cns_half_time_min},
        {"otu_day_max", 1, rule_otu_day_max},
        {"density_note_g_l", 1, rule_density_note_g_l},
        {"density_caution_g_l", 1, rule_density_caution_g_l},
        {"counterdiffusion_ratio", 1, rule_counterdiffusion_ratio},
    };
    int worst = facts_check("mvalues.ref", tables, COUNT(tables));
    worst |= facts_check("tissue.ref", states, COUNT(states));
    worst |= facts_check("oxygen.ref", doses, COUNT(doses));
    worst |= facts_check("rules.ref", rules, COUNT(rules));
    return worst == EXIT_SUCCESS ? EXIT_SUCCESS : EXIT_FAILURE;
}
