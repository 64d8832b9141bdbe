/*
 * Settings that change at a sample said twice, and between two samples. Source: the contract in
 * plimsoll/dive_builder.h.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "support/made_dive.h"
#include "support/suite.h"

/* The setting in force at a sample. */
static const struct plm_setting *setting_at(const struct plm_dive *dive, size_t i)
{
    size_t count;
    const struct plm_sample *samples = plm_dive_samples(dive, &count);
    ck_assert_uint_lt(i, count);
    return &plm_dive_settings(dive, &count)[samples[i].setting];
}

/* One moment told twice, the switch between: the later line has the last word, and the sample before keeps its mix. */
START_TEST(a_switch_between_two_lines_of_one_moment)
{
    struct made_dive made = made_start(1.0);
    size_t count;
    made_open(&made, 0.21, 0.0);
    made_sample(&made, 0, 0);
    made_sample(&made, 60, 20);
    made_sample(&made, 120, 20);
    made_open(&made, 0.5, 0.0);
    made_sample_po2(&made, 120, 20, 1.5);
    made_sample(&made, 180, 10);
    made_sample(&made, 240, 0);
    struct plm_dive *dive = made_finish(&made);
    const struct plm_sample *samples = plm_dive_samples(dive, &count);
    const struct plm_dive_mix *mixes = plm_dive_mixes(dive, &count);
    ck_assert_double_eq(mixes[setting_at(dive, 1)->mix].mix.o2_frac, 0.21);
    ck_assert_double_eq(mixes[setting_at(dive, 2)->mix].mix.o2_frac, 0.5);
    ck_assert_double_eq(mixes[setting_at(dive, 3)->mix].mix.o2_frac, 0.5);
    ck_assert(samples[2].time_ms == 120000 && samples[2].po2_bar == 1.5);
    plm_dive_free(dive);
}
END_TEST

/* The first moment told twice, the gas with its second line: it is known from the start on. A gas told later is not. */
START_TEST(a_gas_told_with_the_second_line_of_the_first_moment)
{
    for (int later_s = 0; later_s <= 60; later_s += 60) {
        struct made_dive made = made_start(1.0);
        made_sample(&made, 0, 0);
        made_open(&made, 0.32, 0.0);
        made_sample(&made, later_s, 0);
        made_sample(&made, 120, 20);
        made_sample(&made, 240, 0);
        struct plm_dive *dive = made_finish(&made);
        size_t count;
        const struct plm_dive_mix *mixes = plm_dive_mixes(dive, &count);
        ck_assert(plm_dive_info_get(dive)->gas_known == (later_s == 0));
        ck_assert_double_eq(mixes[setting_at(dive, 0)->mix].mix.o2_frac, later_s == 0 ? 0.32 : 0.21);
        plm_dive_free(dive);
    }
}
END_TEST

/* A set point of 1.3 instead of 0.7 from the 90th second on. */
static enum plm_status later_setpoint(void *context, double time_s, struct plm_setting *setting)
{
    (void)context;
    setting->setpoint_bar = time_s >= 90 ? 1.3 : 0.7;
    return PLM_STATUS_OK;
}

static double ninety(void *context, double after_s)
{
    (void)context;
    return after_s < 90 ? 90 : (double)INFINITY;
}

/* Half-way between 10 m and 20 m the depth is 15 m; nobody measured oxygen there, neither the recorder nor the cells.
 */
START_TEST(a_sample_put_in_between_is_not_measured)
{
    struct plm_rules rules = plm_rules_default();
    struct made_dive made = made_start(1.0);
    size_t count;
    made_loop(&made, 0.2, 0.3, 0.7);
    made_sample(&made, 0, 0);
    for (int i = 1; i <= 2; i++) {
        struct plm_sample sample = made_blank(60 * i, 10 * i);
        sample.po2_bar = sample.cell_bar[0] = 0.71;
        made_add(&made, &sample);
    }
    made_sample(&made, 300, 0);
    struct plm_dive *dive = made_finish(&made), *other = NULL;
    struct plm_dive_builder *builder = plm_dive_builder_from(dive, &rules, NULL);
    const struct plm_relay relay = {later_setpoint, ninety, NULL};
    ck_assert_int_eq(plm_dive_builder_relay(builder, dive, &relay), PLM_STATUS_OK);
    ck_assert_int_eq(plm_dive_builder_finish(builder, &other), PLM_STATUS_OK);
    const struct plm_sample *samples = plm_dive_samples(other, &count);
    ck_assert_uint_eq(count, 5);
    ck_assert_int_eq(samples[2].time_ms, 90000);
    ck_assert_double_eq_tol(samples[2].depth_m, 15, 1e-12);
    ck_assert(isnan(samples[2].po2_bar) && isnan(samples[2].cell_bar[0]));
    ck_assert(samples[1].po2_bar == 0.71 && samples[3].po2_bar == 0.71);
    ck_assert(setting_at(other, 1)->setpoint_bar == 0.7 && setting_at(other, 2)->setpoint_bar == 1.3 &&
              setting_at(other, 3)->setpoint_bar == 1.3);
    plm_dive_free(other);
    plm_dive_free(dive);
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {a_switch_between_two_lines_of_one_moment,
                                  a_gas_told_with_the_second_line_of_the_first_moment,
                                  a_sample_put_in_between_is_not_measured};
    return SUITE_RUN("settings", tests);
}
