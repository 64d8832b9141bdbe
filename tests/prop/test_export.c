/*
 * A dive that is exported and read again is the same dive, value by value and to the last bit: samples, settings,
 * mixes, events, facts, and so the replay; and exported once more it gives the same bytes. Prints the seed that fails.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include <plimsoll/export.h>
#include <plimsoll/import.h>
#include <plimsoll/replay.h>

#include "odd_dive.h"
#include "export/exporter.h"
#include "report/data/trace_columns.h"
#include "support/memory_sink.h"
#include "support/suite.h"

#define SEEDS     150
#define DIVES_MAX 5

static bool same_number(double a, double b)
{
    return (isnan(a) && isnan(b)) || memcmp(&a, &b, sizeof a) == 0 || (a == 0 && b == 0);
}

static bool same_text(const char *a, const char *b)
{
    return a == NULL || b == NULL ? a == b : strcmp(a, b) == 0;
}

static void say(void *context, const struct plm_diag *diag)
{
    (void)context;
    if (diag->level == PLM_LEVEL_ERROR) {
        printf("line %ld: %s [%s]\n", diag->place.line, diag->text, plm_diag_id_text(diag->id));
    }
}

static struct plmi_text exported(struct plm_dive *const *dives, size_t count, const char *format)
{
    struct plmi_text out;
    struct plm_export *export = NULL;
    plmi_text_init(&out);
    struct plm_sink sink = memory_sink(&out);
    ck_assert_int_eq(plm_export_open(&export, format, &sink, NULL), PLM_STATUS_OK);
    for (size_t i = 0; i < count; i++) {
        ck_assert_int_eq(plm_export_add(export, dives[i]), PLM_STATUS_OK);
    }
    ck_assert_int_eq(plm_export_finish(export), PLM_STATUS_OK);
    plm_export_free(export);
    return out;
}

static size_t imported(const struct plmi_text *log, struct plm_dive **dives)
{
    struct plm_rules rules = plm_rules_default();
    struct plm_import_options options = {.rules = &rules};
    struct plm_diag_sink sink = {say, NULL};
    struct plm_source *source = NULL;
    struct plm_import *import = NULL;
    size_t count = 0;
    ck_assert_int_eq(plm_source_open_memory(&source, log->bytes, log->count, "log", &rules, &sink), PLM_STATUS_OK);
    ck_assert_int_eq(plm_import_open(&import, source, &options, &sink), PLM_STATUS_OK);
    while (count < DIVES_MAX && plm_import_next(import, &dives[count]) == PLM_STATUS_OK) {
        count++;
    }
    plm_import_free(import);
    plm_source_free(source);
    return count;
}

static void samples_same(int seed, const struct plm_dive *a, const struct plm_dive *b)
{
    size_t a_count, b_count, count;
    const struct plm_sample *as = plm_dive_samples(a, &a_count), *bs = plm_dive_samples(b, &b_count);
    const struct plm_setting *ax = plm_dive_settings(a, &count), *bx = plm_dive_settings(b, &count);
    const struct plm_dive_mix *am = plm_dive_mixes(a, &count), *bm = plm_dive_mixes(b, &count);
    ck_assert_msg(a_count == b_count, "seed %d: %zu samples, %zu read again", seed, a_count, b_count);
    for (size_t i = 0; i < a_count; i++) {
        const struct plm_setting *x = &ax[as[i].setting], *y = &bx[bs[i].setting];
        bool cells = true;
        for (int cell = 0; cell < PLM_CELLS; cell++) {
            cells = cells && same_number(as[i].cell_bar[cell], bs[i].cell_bar[cell]);
        }
        ck_assert_msg(as[i].time_ms == bs[i].time_ms && same_number(as[i].depth_m, bs[i].depth_m),
                      "seed %d: time or depth of sample %zu", seed, i);
        ck_assert_msg(same_number(as[i].temp_c, bs[i].temp_c), "seed %d: temperature of sample %zu: %.17g %.17g", seed,
                      i, as[i].temp_c, bs[i].temp_c);
        ck_assert_msg(same_number(as[i].po2_bar, bs[i].po2_bar), "seed %d: oxygen of sample %zu: %.17g %.17g", seed, i,
                      as[i].po2_bar, bs[i].po2_bar);
        ck_assert_msg(cells, "seed %d: cells of sample %zu", seed, i);
        ck_assert_msg(x->mode == y->mode && same_number(x->setpoint_bar, y->setpoint_bar),
                      "seed %d: settings of sample %zu", seed, i);
        ck_assert_msg(same_number(am[x->mix].mix.o2_frac, bm[y->mix].mix.o2_frac) &&
                          same_number(am[x->mix].mix.he_frac, bm[y->mix].mix.he_frac),
                      "seed %d: mix of sample %zu", seed, i);
    }
}

/* Whether b carries every mix that a carries; air that stands in for a gas not recorded is nobody's word. */
static bool carries(const struct plm_dive *a, const struct plm_dive *b)
{
    size_t a_count, b_count;
    const struct plm_dive_mix *as = plm_dive_mixes(a, &a_count), *bs = plm_dive_mixes(b, &b_count);
    for (size_t i = 0; i < a_count; i++) {
        bool found = !as[i].carried || i == plmi_export_assumed_mix(a);
        for (size_t k = 0; k < b_count && !found; k++) {
            found = bs[k].carried && same_number(as[i].mix.o2_frac, bs[k].mix.o2_frac) &&
                    same_number(as[i].mix.he_frac, bs[k].mix.he_frac) &&
                    same_number(as[i].po2_max_bar, bs[k].po2_max_bar) && as[i].use == bs[k].use;
        }
        if (!found) {
            printf("mix %zu: %.17g/%.17g, use %d, limit %.17g bar\n", i, as[i].mix.o2_frac, as[i].mix.he_frac,
                   (int)as[i].use, as[i].po2_max_bar);
            return false;
        }
    }
    return true;
}

static bool same_event(const struct plm_event *a, const struct plm_event *b)
{
    return a->time_ms == b->time_ms && a->kind == b->kind && same_number(a->value, b->value) &&
           same_number(a->value2, b->value2) && strcmp(a->text, b->text) == 0;
}

/* As many of each event in both. Events before the first sample are not in tables. */
static void events_same(int seed, const struct plm_dive *a, const struct plm_dive *b)
{
    size_t a_count, b_count;
    const struct plm_event *as = plm_dive_events(a, &a_count), *bs = plm_dive_events(b, &b_count);
    ck_assert_msg(a_count == b_count, "seed %d: %zu events, %zu read again", seed, a_count, b_count);
    for (size_t i = 0; i < a_count; i++) {
        size_t here = 0, there = 0;
        for (size_t k = 0; k < a_count; k++) {
            here += same_event(&as[i], &as[k]);
            there += same_event(&as[i], &bs[k]);
        }
        ck_assert_msg(here == there, "seed %d: event %zu, %s %.17g %.17g '%s'", seed, i,
                      plm_event_kind_text(as[i].kind), as[i].value, as[i].value2, as[i].text);
        ck_assert_msg(i == 0 || bs[i - 1].time_ms <= bs[i].time_ms, "seed %d: events out of order", seed);
    }
}

static void facts_same(int seed, const struct plm_dive *a, const struct plm_dive *b)
{
    const struct plm_dive_info *x = plm_dive_info_get(a), *y = plm_dive_info_get(b);
    ck_assert_msg(same_text(x->diver, y->diver) && same_text(x->recorder, y->recorder) && same_text(x->site, y->site),
                  "seed %d: names", seed);
    ck_assert_msg(same_text(x->number, y->number) && same_text(x->notes, y->notes), "seed %d: number or notes", seed);
    ck_assert_msg(x->start.known == y->start.known && x->start.local_ms == y->start.local_ms &&
                      x->start.has_clock == y->start.has_clock && x->start.has_zone == y->start.has_zone &&
                      x->start.offset_min == y->start.offset_min,
                  "seed %d: start", seed);
    ck_assert_msg(same_number(x->surface_bar, y->surface_bar) && same_number(x->altitude_m, y->altitude_m) &&
                      same_number(x->water_kg_m3, y->water_kg_m3) && same_number(x->gf_low_pct, y->gf_low_pct) &&
                      same_number(x->gf_high_pct, y->gf_high_pct),
                  "seed %d: surroundings", seed);
    ck_assert_msg(same_number(x->depth_step_m, y->depth_step_m), "seed %d: step of depth", seed);
    ck_assert_msg(same_number(x->surface_interval_s, y->surface_interval_s) && x->group == y->group,
                  "seed %d: surface interval", seed);
    ck_assert_msg(x->gas_known == y->gas_known && x->mode_known == y->mode_known, "seed %d: gas or mode known", seed);
}

static void traces_same(int seed, const struct plm_dive *a, const struct plm_dive *b)
{
    struct plm_rules rules = plm_rules_default();
    struct plm_replay_options options = plm_replay_options_default(&rules);
    struct plm_trace *x = NULL, *y = NULL;
    size_t count, column_count;
    options.schedules = seed % 10 == 0;
    enum plm_status status = plm_replay(&x, a, &options, NULL);
    ck_assert_msg(plm_replay(&y, b, &options, NULL) == status, "seed %d: replay", seed);
    if (status != PLM_STATUS_OK) {
        return;
    }
    const struct plm_point *as = plm_trace_points(x, &count), *bs = plm_trace_points(y, &count);
    const struct plmi_trace_column *columns = plmi_trace_columns(&column_count);
    for (size_t i = 0; i < count; i++) {
        for (size_t k = 0; k < column_count; k++) {
            ck_assert_msg(columns[k].type != PLMI_TRACE_DOUBLE || same_number(plmi_trace_value(&columns[k], &as[i], 0),
                                                                              plmi_trace_value(&columns[k], &bs[i], 0)),
                          "seed %d: %s at point %zu", seed, columns[k].name, i);
        }
    }
    plm_trace_free(x);
    plm_trace_free(y);
}

static void dive_same(int seed, const struct plm_dive *a, const struct plm_dive *b)
{
    samples_same(seed, a, b);
    ck_assert_msg(carries(a, b) && carries(b, a), "seed %d: mixes carried", seed);
    facts_same(seed, a, b);
    events_same(seed, a, b);
    traces_same(seed, a, b);
}

static void round_trip(int seed, const char *format, size_t count, bool plain)
{
    struct seeded seeded = {(uint64_t)seed};
    struct plm_dive *dives[DIVES_MAX] = {NULL}, *again[DIVES_MAX] = {NULL};
    for (size_t i = 0; i < count; i++) {
        dives[i] = odd_dive(&seeded, (int)i + 1, plain);
    }
    struct plmi_text first = exported(dives, count, format);
    size_t read = imported(&first, again);
    ck_assert_msg(read == count, "seed %d: %zu dives, %zu read again\n%s", seed, count, read, first.bytes);
    struct plmi_text second = exported(again, read, format);
    for (size_t i = 0; i < count; i++) {
        const struct plm_dive *plan = plm_dive_plan(dives[i]), *plan_again = plm_dive_plan(again[i]);
        dive_same(seed, dives[i], again[i]);
        ck_assert_msg((plan == NULL) == (plan_again == NULL), "seed %d: plan", seed);
        if (plan != NULL) {
            samples_same(seed, plan, plan_again);
        }
    }
    if (strcmp(first.bytes, second.bytes) != 0) {
        printf("seed %d, first:\n%s\nsecond:\n%s\n", seed, first.bytes, second.bytes);
    }
    ck_assert_msg(strcmp(first.bytes, second.bytes) == 0, "seed %d: other bytes the second time", seed);
    for (size_t i = 0; i < count; i++) {
        plm_dive_free(dives[i]);
        plm_dive_free(again[i]);
    }
    plmi_text_free(&first);
    plmi_text_free(&second);
}

START_TEST(uddf_reads_back)
{
    for (int seed = 1; seed <= SEEDS; seed++) {
        round_trip(seed, "uddf", 1 + (size_t)seed % DIVES_MAX, false);
    }
    printf("UDDF: %d seeds\n", SEEDS);
}
END_TEST

START_TEST(tables_read_back)
{
    for (int seed = 1; seed <= SEEDS; seed++) {
        round_trip(seed, "csv", 1, true);
    }
    printf("tables: %d seeds\n", SEEDS);
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {uddf_reads_back, tables_read_back};
    return SUITE_RUN("export", tests);
}
