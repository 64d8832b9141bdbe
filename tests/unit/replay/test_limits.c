/*
 * The anchor of the gradient factors: when it is set, deepens, stays and clears; the ceiling under it.
 * States are a single compartment loaded so that its ceilings can be worked out by hand.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "replay/limits.h"
#include "support/suite.h"

static const double surface_bar = 1.0;

static struct plmi_bounds bounds_30_70(void)
{
    return (struct plmi_bounds){plm_zhl16_get(2), 0.3, 0.7, surface_bar};
}

/* All compartments at rest but the 8th, which holds nitrogen for a ceiling at GF low of low_bar. */
static struct plmi_limits loaded(double low_bar)
{
    const struct plm_zhl16 *model = plm_zhl16_get(2);
    struct plm_tissue tissue = plm_tissue_saturated(surface_bar, 0.0627, 0.7902);
    /* tension = P + GF (a + P/b - P) at P = low_bar, GF = 0.3 */
    tissue.n2_bar[7] = low_bar + 0.3 * (model->n2_a_bar[7] + low_bar / model->n2_b[7] - low_bar);
    struct plmi_limits limits;
    plmi_limits_find(&limits, &tissue, model);
    return limits;
}

START_TEST(the_anchor_is_the_deepest_ceiling_at_gf_low)
{
    struct plmi_bounds bounds = bounds_30_70();
    struct plmi_limits shallow = loaded(1.2), deep = loaded(2.5), none = loaded(0.99);
    ck_assert(isnan(plmi_anchor_next_bar(&bounds, &none, (double)NAN, false)));
    double anchor_bar = plmi_anchor_next_bar(&bounds, &shallow, (double)NAN, false);
    ck_assert_double_eq_tol(anchor_bar, 1.2, 1e-12);
    anchor_bar = plmi_anchor_next_bar(&bounds, &deep, anchor_bar, false);
    ck_assert_double_eq_tol(anchor_bar, 2.5, 1e-12);
    /* it stays when tensions fall, and at depth even when nothing is owed */
    ck_assert_double_eq_tol(plmi_anchor_next_bar(&bounds, &shallow, anchor_bar, false), 2.5, 1e-12);
    ck_assert_double_eq_tol(plmi_anchor_next_bar(&bounds, &none, anchor_bar, false), 2.5, 1e-12);
}
END_TEST

START_TEST(the_anchor_clears_at_the_surface_alone)
{
    struct plmi_bounds bounds = bounds_30_70();
    struct plmi_limits owing = loaded(2.5), clear = loaded(1.05);
    /* 1.05 at GF 0.3 is above the surface at GF 0.7: clear, though a GF-low ceiling is left */
    ck_assert_double_lt(plmi_limits_constant_bar(&clear, 0.7, NULL), surface_bar);
    ck_assert_double_gt(plmi_limits_constant_bar(&owing, 0.7, NULL), surface_bar);
    ck_assert(isnan(plmi_anchor_next_bar(&bounds, &clear, 2.5, true)));
    ck_assert_double_eq_tol(plmi_anchor_next_bar(&bounds, &owing, 2.5, true), 2.5, 1e-12);
}
END_TEST

START_TEST(the_ceiling_runs_from_low_at_the_anchor_to_high)
{
    struct plmi_bounds bounds = bounds_30_70();
    struct plmi_limits limits = loaded(2.0);
    double high_bar = plmi_limits_constant_bar(&limits, 0.7, NULL);
    ck_assert_double_eq_tol(plmi_anchored_ceiling_bar(&bounds, &limits, (double)NAN), fmax(surface_bar, high_bar),
                            1e-12);
    ck_assert_double_eq_tol(plmi_anchored_ceiling_bar(&bounds, &limits, 2.0), 2.0, 1e-12);
    /* a deeper anchor: more is allowed at the same depth, and at the ceiling the gradient is the factor there */
    double ceiling_bar = plmi_anchored_ceiling_bar(&bounds, &limits, 4.0);
    ck_assert_double_lt(ceiling_bar, 2.0);
    ck_assert_double_gt(ceiling_bar, fmax(surface_bar, high_bar));
    double factor = 0.7 + (0.3 - 0.7) * (ceiling_bar - surface_bar) / (4.0 - surface_bar);
    ck_assert_double_eq_tol(plmi_limits_gradient_pct(&limits, ceiling_bar, NULL), 100.0 * factor, 1e-9);
}
END_TEST

START_TEST(the_ceiling_at_one_factor_is_held_at_the_surface)
{
    struct plmi_limits none = loaded(0.99), some = loaded(1.5);
    ck_assert(plmi_constant_ceiling_bar(&none, 0.3, surface_bar) == surface_bar);
    ck_assert_double_eq_tol(plmi_constant_ceiling_bar(&some, 0.3, surface_bar), 1.5, 1e-12);
}
END_TEST

/* A factor at the surface below that at depth, as a rule may have it: owed before there is an anchor. */
START_TEST(factors_the_other_way_round)
{
    struct plmi_bounds bounds = {plm_zhl16_get(2), 0.9, 0.3, surface_bar};
    struct plmi_limits limits = loaded(1.3); /* 1.3 at GF 0.3, above the surface at 0.9 */
    ck_assert_double_lt(plmi_limits_constant_bar(&limits, 0.9, NULL), surface_bar);
    double anchor_bar = plmi_anchor_next_bar(&bounds, &limits, (double)NAN, false);
    ck_assert(isnan(anchor_bar));
    ck_assert_double_eq_tol(plmi_anchored_ceiling_bar(&bounds, &limits, anchor_bar), 1.3, 1e-12);
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {the_anchor_is_the_deepest_ceiling_at_gf_low, the_anchor_clears_at_the_surface_alone,
                                  the_ceiling_runs_from_low_at_the_anchor_to_high,
                                  the_ceiling_at_one_factor_is_held_at_the_surface, factors_the_other_way_round};
    return SUITE_RUN("limits", tests);
}
