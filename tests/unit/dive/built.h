/*
 * For the builder's tests: one dive being built, with what is told of it. Must not judge more than what every test
 * asks.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_UNIT_DIVE_BUILT_H
#define PLM_UNIT_DIVE_BUILT_H

#include <check.h>
#include <math.h>
#include <plimsoll/dive_builder.h>

#include "unit/diag_list.h"

static struct diag_list told;
static struct plm_diag_sink sink;
static struct plm_rules rules;
static struct plm_dive_builder *builder;
static struct plm_dive *dive;

static inline void begin(void)
{
    rules = plm_rules_default();
    sink = diag_list_sink(&told);
    plm_dive_builder_free(builder);
    builder = plm_dive_builder_new("d.csv", &rules, &sink);
    dive = NULL;
    ck_assert_ptr_nonnull(builder);
}

static inline void end(void)
{
    plm_dive_free(dive);
    dive = NULL;
}

static inline void add(double time_s, double depth_m, uint32_t line)
{
    struct plm_sample sample = {
        .time_ms = (int64_t)(time_s * 1000), .depth_m = depth_m, .temp_c = NAN, .po2_bar = NAN, .line = line};
    for (int i = 0; i < PLM_CELLS; i++) {
        sample.cell_bar[i] = NAN;
    }
    ck_assert_int_eq(plm_dive_builder_sample(builder, &sample), PLM_STATUS_OK);
}

static inline void finish(void)
{
    ck_assert_int_eq(plm_dive_builder_finish(builder, &dive), PLM_STATUS_OK);
    builder = NULL;
}

static inline const struct plm_sample *samples(size_t want)
{
    size_t count;
    const struct plm_sample *all = plm_dive_samples(dive, &count);
    ck_assert_uint_eq(count, want);
    return all;
}

#endif
