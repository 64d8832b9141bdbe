/*
 * Property: the replay of an edited dive that takes over what it has in common with the recording is, to the last bit,
 * the plain replay of that dive. Seeded dives on open circuit and on loops with cells that fall silent. Source: the
 * contract of edited_replay.h.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <string.h>

#include "replay/edited_replay.h"
#include "support/made_dive.h"
#include "support/random.h"
#include "support/suite.h"

#define SAMPLES 400

/* The dive of a seed; from sample `edited` on some are deeper, later, or without their measurement. */
static struct plm_dive *invent(uint64_t seed, size_t edited, struct plm_rules *rules)
{
    struct seeded seeded = {seed};
    struct made_dive made = made_start(1.0);
    bool loop = seed % 3 != 0, cells = seed % 3 == 1;
    double depth_m = 0, time_s = 0;
    made.rules.oxygen = (int)(seed % 2);
    *rules = made.rules;
    if (loop) {
        made_loop(&made, 0.15, 0.4, 1.2);
    } else {
        made_open(&made, 0.21, 0.2);
    }
    for (size_t i = 0; i < SAMPLES; i++) {
        double po2_bar = seeded_between(&seeded, 0.9, 1.4), silent = seeded_uniform(&seeded),
               climbs = seeded_between(&seeded, -2.0, 2.0);
        bool other = i >= edited;
        depth_m = fmin(60, fmax(0, depth_m + climbs + (i < SAMPLES / 4 ? 1.0 : i > SAMPLES / 2 ? -0.5 : 0.0)));
        time_s += other && i % 7 == 0 ? 15 : 5;
        if (i == SAMPLES / 3 || i == SAMPLES / 2) {
            made_open(&made, 0.21, 0.2);
        } else if (loop && (i == SAMPLES / 3 + 20 || i == SAMPLES / 2 + 20)) {
            made_loop(&made, 0.15, 0.4, 1.0);
        }
        if (cells && silent < (other ? 0.2 : 0.5)) {
            made_sample_cells(&made, time_s, depth_m + (other ? 0.5 : 0), po2_bar, po2_bar + 0.02, po2_bar - 0.03);
        } else {
            made_sample(&made, time_s, depth_m + (other ? 0.5 : 0));
        }
    }
    return made_finish(&made);
}

static void same_trace(const struct plm_trace *a, const struct plm_trace *b, uint64_t seed)
{
    size_t count = 0, others = 0;
    const struct plm_point *points = plm_trace_points(a, &count), *more = plm_trace_points(b, &others);
    ck_assert_uint_eq(count, others);
    for (size_t i = 0; i < count; i++) {
        ck_assert_msg(memcmp(&points[i].tissue, &more[i].tissue, sizeof points[i].tissue) == 0,
                      "seed %d, point %zu: tissue", (int)seed, i);
        double one[] = {points[i].depth_m,    points[i].po2_bar,     points[i].ceiling_m,   points[i].gradient_pct,
                        points[i].cns_pct,    points[i].cns_day_pct, points[i].otu,         points[i].esot,
                        points[i].rate_m_min, points[i].anchor_bar,  points[i].density_g_l, points[i].setpoint_bar};
        double two[] = {more[i].depth_m,    more[i].po2_bar,     more[i].ceiling_m,   more[i].gradient_pct,
                        more[i].cns_pct,    more[i].cns_day_pct, more[i].otu,         more[i].esot,
                        more[i].rate_m_min, more[i].anchor_bar,  more[i].density_g_l, more[i].setpoint_bar};
        ck_assert_msg(memcmp(one, two, sizeof one) == 0, "seed %d, point %zu", (int)seed, i);
    }
    const struct plm_trace_summary *first = plm_trace_summary_get(a), *second = plm_trace_summary_get(b);
    ck_assert_int_eq(memcmp(first->po2_band_min, second->po2_band_min, sizeof first->po2_band_min), 0);
    ck_assert_double_eq(first->max_density_g_l, second->max_density_g_l);
    ck_assert_double_eq(first->max_po2_at_s, second->max_po2_at_s);
    ck_assert_int_eq(
        memcmp(&first->surfacing_gradient_pct, &second->surfacing_gradient_pct, sizeof first->surfacing_gradient_pct),
        0);
    ck_assert_str_eq(plm_trace_assumed(a)->oxygen_from, plm_trace_assumed(b)->oxygen_from);
}

START_TEST(what_is_taken_over_is_what_would_be_computed)
{
    size_t parted = 0;
    for (uint64_t seed = 1; seed <= 60; seed++) {
        struct plm_rules rules;
        size_t edited = 1 + (size_t)seed * 6;
        struct plm_dive *before = invent(seed, SAMPLES, &rules), *dive = invent(seed, edited, &rules);
        struct plm_replay_options options = plm_replay_options_default(&rules);
        struct plm_trace *first = NULL, *plain = NULL, *taken = NULL;
        ck_assert_int_eq(plm_replay(&first, before, &options, NULL), PLM_STATUS_OK);
        ck_assert_int_eq(plm_replay(&plain, dive, &options, NULL), PLM_STATUS_OK);
        struct plmi_replayed replayed = {before, first};
        ck_assert_int_eq(plmi_edited_replay(&taken, dive, &replayed, &options, NULL), PLM_STATUS_OK);
        same_trace(plain, taken, seed);
        /* The same in the memory of the trace before. */
        ck_assert_int_eq(plmi_edited_replay(&first, dive, &replayed, &options, NULL), PLM_STATUS_OK);
        same_trace(plain, first, seed);
        struct plmi_recording a = plmi_recording_of(before), b = plmi_recording_of(dive);
        size_t part = plmi_recordings_part(&a, &b);
        ck_assert_uint_le(part, edited);
        parted += part > edited / 2;
        plm_trace_free(first);
        plm_trace_free(plain);
        plm_trace_free(taken);
        plm_dive_free(before);
        plm_dive_free(dive);
    }
    ck_assert_uint_gt(parted, 40);
}
END_TEST

START_TEST(the_same_dive_is_taken_over_whole)
{
    struct plm_rules rules;
    struct plm_dive *dive = invent(4, SAMPLES, &rules);
    struct plm_trace *trace = made_replay(dive, &rules), *again = NULL;
    struct plm_replay_options options = plm_replay_options_default(&rules);
    struct plmi_replayed replayed = {dive, trace};
    ck_assert_int_eq(plmi_edited_replay(&again, dive, &replayed, &options, NULL), PLM_STATUS_OK);
    same_trace(trace, again, 4);
    plm_trace_free(trace);
    plm_trace_free(again);
    plm_dive_free(dive);
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {what_is_taken_over_is_what_would_be_computed, the_same_dive_is_taken_over_whole};
    return SUITE_RUN("edited replay", tests);
}
