/*
 * How far two recordings are one. The expectations follow by counting equal samples in the tables here.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "replay/edited_replay.h"
#include "support/suite.h"

enum { SAMPLES = 4 };

/* Samples 10 s apart, of one setting; po2_bar and a cell of each: NaN for none. */
static void fill(struct plm_sample samples[SAMPLES], double po2_bar, double cell_bar)
{
    for (int i = 0; i < SAMPLES; i++) {
        samples[i] = (struct plm_sample){
            .time_ms = 10000 * i, .depth_m = 5 * i, .temp_c = (double)NAN, .po2_bar = po2_bar, .line = (uint32_t)i + 2};
        for (int c = 0; c < PLM_CELLS; c++) {
            samples[i].cell_bar[c] = c == 0 ? cell_bar : (double)NAN;
        }
    }
}

/* The part that two recordings share whose third sample differs in depth. */
static size_t part_of(double po2_bar, double cell_bar, const struct plm_setting *one, const struct plm_setting *other)
{
    struct plm_sample a[SAMPLES], b[SAMPLES];
    fill(a, po2_bar, cell_bar);
    fill(b, po2_bar, cell_bar);
    b[2].depth_m += 1;
    const struct plmi_recording first = {.samples = a, .count = SAMPLES, .settings = one};
    const struct plmi_recording second = {.samples = b, .count = SAMPLES, .settings = other};
    return plmi_recordings_part(&first, &second);
}

/* Samples 0 and 1 are equal, 2 is not: whether a value is the same number in both, or unknown in both. */
START_TEST(equal_and_unknown_values_are_the_same)
{
    const struct plm_setting open = {PLM_MODE_OPEN, 0, (double)NAN}, closed = {PLM_MODE_CLOSED, 0, 1.3};
    ck_assert_uint_eq(part_of((double)NAN, (double)NAN, &open, &open), 1);
    ck_assert_uint_eq(part_of((double)NAN, (double)NAN, &closed, &closed), 1);
    ck_assert_uint_eq(part_of(1.25, (double)NAN, &closed, &closed), 1);
    ck_assert_uint_eq(part_of((double)NAN, 1.25, &closed, &closed), 1);
}
END_TEST

START_TEST(another_setting_shares_nothing)
{
    const struct plm_setting settings[] = {{PLM_MODE_CLOSED, 0, 1.3},
                                           {PLM_MODE_CLOSED, 0, 1.2},
                                           {PLM_MODE_CLOSED, 0, (double)NAN},
                                           {PLM_MODE_CLOSED, 1, 1.3},
                                           {PLM_MODE_OPEN, 0, 1.3}};
    for (size_t i = 1; i < sizeof settings / sizeof settings[0]; i++) {
        ck_assert_uint_eq(part_of((double)NAN, (double)NAN, &settings[0], &settings[i]), 0);
    }
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {equal_and_unknown_values_are_the_same, another_setting_shares_nothing};
    return SUITE_RUN("recordings_part", tests);
}
