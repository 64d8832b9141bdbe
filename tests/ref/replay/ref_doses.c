/*
 * Oxygen doses of whole replays against adaptive quadrature (GSL qags) of the rates written down here.
 * Sources: CNS by the NOAA Diving Manual, table 15-1, linear between rows, 900 at 0.5 bar and the last limit above 1.6
 * bar being conventions of the design; OTU ((PO2 - 0.5)/0.5)^(5/6) a minute, REPEX 1988; ESOT PO2^2.285 a minute,
 * Risberg and van Ooij 2022 (from memory).
 * SPDX-License-Identifier: MIT
 */
#include <check.h>
#include <gsl/gsl_integration.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "ref/replay/scenario.h"
#include "support/made_dive.h"

#define PROFILES 60

static const double single_min[] = {900, 720, 570, 450, 360, 300, 240, 210, 180, 150, 120, 45};
static const double day_min[] = {900, 720, 570, 450, 360, 300, 270, 240, 210, 180, 180, 150};

static double limit_min(const double *rows, double po2_bar)
{
    double place = (po2_bar - 0.5) * 10.0;
    int row = (int)floor(place);
    return row >= 11 ? rows[11] : rows[row] + (rows[row + 1] - rows[row]) * (place - row);
}

static double cns_pct_min(double po2_bar)
{
    return po2_bar < 0.5 ? 0.0 : po2_bar <= 1.6 ? 100.0 / limit_min(single_min, po2_bar) : 100.0 / single_min[11];
}

static double cns_day_pct_min(double po2_bar)
{
    return po2_bar < 0.5 ? 0.0 : po2_bar <= 1.6 ? 100.0 / limit_min(day_min, po2_bar) : 100.0 / day_min[11];
}

static double otu_min(double po2_bar)
{
    return po2_bar <= 0.5 ? 0.0 : pow((po2_bar - 0.5) / 0.5, 5.0 / 6.0);
}

static double esot_min(double po2_bar)
{
    return pow(po2_bar, 2.285);
}

struct along {
    const struct scenario *scenario;
    int leg;
    double (*rate)(double po2_bar);
};

static double rate_at(double t_s, void *parameters)
{
    const struct along *along = parameters;
    return along->rate(scenario_breathe(along->scenario, along->leg, t_s).o2_bar) / 60.0;
}

/* Times at which a leg's PO2 passes a kink of the rates, or a clip; sorted, ends included. */
static int breaks_find(const struct scenario *scenario, int leg, double *breaks_s)
{
    double ends_s[6], kinks_s[4];
    int ends = 0, count = 0, cuts = scenario_kinks(scenario, leg, kinks_s);
    ends_s[ends++] = scenario->samples[leg].time_s;
    for (int k = 0; k < cuts; k++) {
        ends_s[ends++] = kinks_s[k];
    }
    ends_s[ends++] = scenario->samples[leg + 1].time_s;
    for (int e = 0; e + 1 < ends; e++) {
        double from_s = ends_s[e], to_s = ends_s[e + 1], inside_s = 1e-9 * (to_s - from_s);
        double from_bar = scenario_breathe(scenario, leg, from_s + inside_s).o2_bar;
        double to_bar = scenario_breathe(scenario, leg, to_s - inside_s).o2_bar;
        breaks_s[count++] = from_s;
        for (int row = 0; row < 12; row++) {
            int at = to_bar > from_bar ? row : 11 - row;
            double share = (0.5 + 0.1 * at - from_bar) / (to_bar - from_bar);
            if (to_bar != from_bar && share > 1e-9 && share < 1.0 - 1e-9) {
                breaks_s[count++] = from_s + share * (to_s - from_s);
            }
        }
    }
    breaks_s[count++] = ends_s[ends - 1];
    return count;
}

static double dose_of(const struct scenario *scenario, double (*rate)(double), gsl_integration_workspace *room)
{
    double dose = 0.0;
    for (int leg = 0; leg + 1 < scenario->count; leg++) {
        struct along along = {scenario, leg, rate};
        gsl_function function = {rate_at, &along};
        double breaks_s[80];
        int count = breaks_find(scenario, leg, breaks_s);
        for (int b = 0; b + 1 < count; b++) {
            if (breaks_s[b + 1] - breaks_s[b] > 1e-7) {
                double part, error;
                gsl_integration_qags(&function, breaks_s[b], breaks_s[b + 1], 1e-12, 1e-11, 1000, room, &part, &error);
                dose += part;
            }
        }
    }
    return dose;
}

static double relative(double ours, double theirs)
{
    return fabs(ours - theirs) / fmax(1.0, fabs(theirs));
}

START_TEST(doses_are_those_of_the_quadrature)
{
    gsl_integration_workspace *room = gsl_integration_workspace_alloc(1000);
    double worst = 0.0;
    for (uint64_t seed = 1; seed <= PROFILES; seed++) {
        struct scenario scenario;
        scenario_make(&scenario, seed);
        struct plm_dive *dive = scenario_dive(&scenario);
        struct plm_rules rules = scenario_rules(&scenario);
        struct plm_trace *trace = made_replay(dive, &rules);
        const struct plm_trace_summary *summary = plm_trace_summary_get(trace);
        double off = relative(summary->cns_pct, dose_of(&scenario, cns_pct_min, room));
        off = fmax(off, relative(summary->cns_day_pct, dose_of(&scenario, cns_day_pct_min, room)));
        off = fmax(off, relative(summary->otu, dose_of(&scenario, otu_min, room)));
        off = fmax(off, relative(summary->esot, dose_of(&scenario, esot_min, room)));
        ck_assert_msg(off < 1e-8, "seed %d: off by %g", (int)seed, off);
        worst = fmax(worst, off);
        plm_trace_free(trace);
        plm_dive_free(dive);
    }
    printf("%d random dives: doses off by %.3g of themselves at worst\n", PROFILES, worst);
    gsl_integration_workspace_free(room);
}
END_TEST

/* reference values: half a CNS percent is left after 90 min, 0.96222 of it after 5 min (second-hand). */
START_TEST(cns_decays_at_the_surface)
{
    struct made_dive made = made_start(1.01325);
    made_open(&made, 0.5, 0.0);
    made_sample(&made, 0, 0);
    made_sample(&made, 60, 20);
    made_sample(&made, 3600, 20);
    made_sample(&made, 3720, 0);
    struct plm_dive *dive = made_finish(&made);
    struct plm_trace *trace = made_replay(dive, &made.rules);
    double left_pct = plm_trace_summary_get(trace)->cns_pct;
    struct plm_start half = plm_start_after(trace, 90.0 * 60.0, 1.01325, &made.rules);
    struct plm_start five = plm_start_after(trace, 5.0 * 60.0, 1.01325, &made.rules);
    ck_assert_double_gt(left_pct, 30.0);
    ck_assert_double_eq_tol(half.cns_pct, 0.5 * left_pct, 1e-9);
    ck_assert_double_eq_tol(five.cns_pct, 0.96222 * left_pct, 5e-6 * left_pct);
    struct plm_replay_options options = plm_replay_options_default(&made.rules);
    options.start = &half;
    struct plm_trace *second;
    ck_assert_int_eq(plm_replay(&second, dive, &options, NULL), PLM_STATUS_OK);
    ck_assert_double_eq_tol(plm_trace_summary_get(second)->cns_pct, 1.5 * left_pct, 1e-9);
    plm_trace_free(second);
    plm_trace_free(trace);
    plm_dive_free(dive);
}
END_TEST

int main(void)
{
    TCase *tests = tcase_create("doses");
    tcase_add_test(tests, doses_are_those_of_the_quadrature);
    tcase_add_test(tests, cns_decays_at_the_surface);
    tcase_set_timeout(tests, 240);
    Suite *suite = suite_create("replay");
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
