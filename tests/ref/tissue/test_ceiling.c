/*
 * The ceiling against its own definition, by search: the least pressure from the surface on where
 * no compartment is over P + GF(P) (M(P) - P), found by stepping and halving, written down here a
 * second time. Source: plimsoll-model(7), CEILING; M = a + P / b, Buehlmann 1995.
 * SPDX-License-Identifier: MIT
 */
#include <check.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "support/lung.h"

static struct plm_tissue random_tissue(uint32_t *seed)
{
    struct plm_tissue tissue;
    double load = lung_between(seed, 0.5, 8.0), he = lung_between(seed, 0.0, 1.0);
    for (int i = 0; i < PLM_COMPARTMENTS; i++) {
        double share = load * lung_between(seed, 0.3, 1.0) * (1.0 - 0.04 * i);
        tissue.n2_bar[i] = (1.0 - he) * share;
        tissue.he_bar[i] = he * share;
    }
    return tissue;
}

/* Largest tension over the limit at a pressure, relative to the whole gradient there, less GF. */
static double over(const struct plm_tissue *tissue, const struct plm_zhl16 *model, const struct plmi_gf *gf, double p)
{
    double factor = gf->high_frac;
    if (gf->anchor_bar > gf->surface_bar) {
        double share = (p - gf->surface_bar) / (gf->anchor_bar - gf->surface_bar);
        factor += (share > 1.0 ? 1.0 : share) * (gf->low_frac - gf->high_frac);
    }
    double worst = -1e9;
    for (int i = 0; i < PLM_COMPARTMENTS; i++) {
        double n2 = tissue->n2_bar[i], he = tissue->he_bar[i];
        double a = (model->n2_a_bar[i] * n2 + model->he_a_bar[i] * he) / (n2 + he);
        double b = (model->n2_b[i] * n2 + model->he_b[i] * he) / (n2 + he);
        worst = fmax(worst, (n2 + he - p) / (a + p / b - p) - factor);
    }
    return worst;
}

/* Steps of 1e-3 bar, then halving. */
static double searched_ceiling(const struct plm_tissue *tissue, const struct plm_zhl16 *model, const struct plmi_gf *gf)
{
    double p = gf->surface_bar;
    if (over(tissue, model, gf, p) <= 0.0) {
        return p;
    }
    while (over(tissue, model, gf, p + 1e-3) > 0.0) {
        p += 1e-3;
    }
    double low = p, high = p + 1e-3;
    for (int i = 0; i < 60; i++) {
        double middle = 0.5 * (low + high);
        *(over(tissue, model, gf, middle) > 0.0 ? &low : &high) = middle;
    }
    return high;
}

static struct plmi_gf random_gf(uint32_t *seed, const struct plm_tissue *tissue, const struct plm_zhl16 *model)
{
    struct plmi_gf gf = {
        .low_frac = lung_between(seed, 0.1, 1.0),
        .high_frac = lung_between(seed, 0.1, 1.0),
        .surface_bar = lung_between(seed, 0.6, 1.1),
        .anchor_bar = (double)NAN,
    };
    double kind = lung_between(seed, 0.0, 1.0);
    if (kind < 0.6) {
        /* An anchor kept up to date. */
        double now = plmi_ceiling_constant_bar(tissue, model, gf.low_frac, NULL);
        gf.anchor_bar = now + lung_between(seed, 0.0, 1.0) * lung_between(seed, 0.0, 2.0);
    } else if (kind < 0.9) {
        /* Any anchor: older than the tensions, or near the surface. */
        gf.anchor_bar = gf.surface_bar + pow(10.0, lung_between(seed, -2.0, 1.0));
    }
    return gf;
}

START_TEST(ceiling_is_the_one_searched)
{
    const struct plm_zhl16 *model = plm_zhl16_get(_i);
    uint32_t seed = 3;
    double worst_bar = 0.0, worst_gf = 0.0;
    int above = 0;
    for (int i = 0; i < 3000; i++) {
        struct plm_tissue tissue = random_tissue(&seed);
        struct plmi_gf gf = random_gf(&seed, &tissue, model);
        int leading;
        double ceiling_bar = plmi_ceiling_bar(&tissue, model, &gf, &leading);
        double searched_bar = searched_ceiling(&tissue, model, &gf);
        worst_bar = fmax(worst_bar, fabs(ceiling_bar - searched_bar));
        ck_assert_msg(fabs(ceiling_bar - searched_bar) < 1e-9, "state %d: %.12g, searched %.12g", i, ceiling_bar,
                      searched_bar);
        ck_assert(ceiling_bar >= gf.surface_bar && leading >= 0 && leading < PLM_COMPARTMENTS);
        if (ceiling_bar > gf.surface_bar) {
            int worst_at;
            double gradient = plmi_gradient_pct(&tissue, model, ceiling_bar, &worst_at) / 100.0;
            worst_gf = fmax(worst_gf, fabs(gradient - plmi_gf_at(&gf, ceiling_bar)));
            ck_assert_double_eq_tol(gradient, plmi_gf_at(&gf, ceiling_bar), 1e-12);
            above++;
        }
    }
    printf("%s: %d of 3000 below the surface; off the search by %.2g bar, off GF by %.2g\n", model->name, above,
           worst_bar, worst_gf);
    ck_assert_int_gt(above, 1500);
}
END_TEST

START_TEST(constant_ceiling_is_at_its_gradient)
{
    const struct plm_zhl16 *model = plm_zhl16_get(2);
    uint32_t seed = 5;
    for (int i = 0; i < 1000; i++) {
        struct plm_tissue tissue = random_tissue(&seed);
        double gf = lung_between(&seed, 0.05, 1.0);
        double ceiling_bar = plmi_ceiling_constant_bar(&tissue, model, gf, NULL);
        if (ceiling_bar > 0.0) {
            ck_assert_double_eq_tol(plmi_gradient_pct(&tissue, model, ceiling_bar, NULL) / 100.0, gf, 1e-12);
        }
    }
}
END_TEST

START_TEST(anchors_at_the_surface_are_none)
{
    const struct plm_zhl16 *model = plm_zhl16_get(2);
    uint32_t seed = 9;
    for (int i = 0; i < 200; i++) {
        struct plm_tissue tissue = random_tissue(&seed);
        struct plmi_gf none = {0.3, 0.7, 1.0, (double)NAN};
        struct plmi_gf at = {0.3, 0.7, 1.0, 1.0}, above = {0.3, 0.7, 1.0, 0.4};
        double ceiling_bar = plmi_ceiling_bar(&tissue, model, &none, NULL);
        ck_assert_double_eq(plmi_ceiling_bar(&tissue, model, &at, NULL), ceiling_bar);
        ck_assert_double_eq(plmi_ceiling_bar(&tissue, model, &above, NULL), ceiling_bar);
        ck_assert_double_eq(plmi_gf_at(&above, 3.0), 0.7);
    }
}
END_TEST

START_TEST(no_number_stays_no_number)
{
    const struct plm_zhl16 *model = plm_zhl16_get(2);
    struct plmi_gf gf = {0.3, 0.7, 1.0, 2.0};
    for (int i = 0; i < PLM_COMPARTMENTS; i++) {
        struct plm_tissue tissue = plm_tissue_saturated(1.0, 0.0627, 0.7902);
        tissue.he_bar[i] = (double)NAN;
        ck_assert(isnan(plmi_ceiling_bar(&tissue, model, &gf, NULL)));
        ck_assert(isnan(plmi_ceiling_constant_bar(&tissue, model, 0.5, NULL)));
        ck_assert(isnan(plmi_gradient_pct(&tissue, model, 1.0, NULL)));
    }
    struct plm_tissue empty = {{0.0}, {0.0}};
    ck_assert_double_eq(plmi_ceiling_bar(&empty, model, &gf, NULL), 1.0);
    ck_assert_double_lt(plmi_gradient_pct(&empty, model, 1.0, NULL), 0.0);
}
END_TEST

int main(void)
{
    TCase *tests = tcase_create("ceiling");
    tcase_set_timeout(tests, 60);
    tcase_add_loop_test(tests, ceiling_is_the_one_searched, 0, 3);
    tcase_add_test(tests, constant_ceiling_is_at_its_gradient);
    tcase_add_test(tests, anchors_at_the_surface_are_none);
    tcase_add_test(tests, no_number_stays_no_number);
    Suite *suite = suite_create("tissue");
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
