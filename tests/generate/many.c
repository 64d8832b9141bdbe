/*
 * Heaps of dives for benchmarks. A few courses are found, and recorded again and again with other clocks,
 * other noise and other steps. Must not be taken for dives of anybody.
 * SPDX-License-Identifier: MIT
 */
#include "generate/many.h"

#include <math.h>
#include <stdio.h>

#include "generate/expedition.h"
#include "generate/random.h"
#include "generate/writers.h"

#define SHAPES 16

static const int64_t first_day_ms = INT64_C(1924992000000); /* 2031-01-01 */
static const int64_t day_ms = 86400000;

struct shapes {
    struct gen_dive dive[SHAPES];
    struct gen_course course[SHAPES];
};

static struct plm_mix mix_of(double o2_frac, double he_frac)
{
    return (struct plm_mix){o2_frac, he_frac, 1 - o2_frac - he_frac};
}

static void level_add(struct gen_dive *dive, double depth_m, double until_s)
{
    dive->levels[dive->level_count++] = (struct gen_level){depth_m, until_s};
}

/* On nitrox without stops. */
static void shape_shallow(struct gen_dive *dive, struct gen_random *random)
{
    dive->mix = mix_of(0.32, 0);
    level_add(dive, floor(gen_random_between(random, 12, 20)), 900);
    level_add(dive, floor(gen_random_between(random, 8, 12)), 2100);
    dive->safety = (struct gen_safety){5, 180};
}

/* On open circuit with two mixes for the way up. */
static void shape_open(struct gen_dive *dive, struct gen_random *random)
{
    dive->mix = mix_of(0.18, 0.50);
    dive->deco[0] = (struct gen_deco){mix_of(0.50, 0.20), 21};
    dive->deco[1] = (struct gen_deco){mix_of(0.80, 0), 9};
    dive->deco_count = 2;
    double depth_m = floor(gen_random_between(random, 45, 60));
    level_add(dive, depth_m, 900);
    level_add(dive, depth_m - 6, floor(gen_random_between(random, 1200, 1600)));
}

/* On a loop. */
static void shape_loop(struct gen_dive *dive, struct gen_random *random)
{
    dive->mode = PLM_MODE_CLOSED;
    dive->mix = mix_of(0.10, 0.70);
    dive->setpoints[0] = (struct gen_setpoint){0.7, GEN_AT_START, 0};
    dive->setpoints[1] = (struct gen_setpoint){1.2, GEN_DOWN, 30};
    dive->setpoints[2] = (struct gen_setpoint){1.3, GEN_FIRST_STOP, 0};
    dive->setpoint_count = 3;
    double depth_m = floor(gen_random_between(random, 55, 90));
    level_add(dive, depth_m, 800);
    level_add(dive, depth_m - 5, floor(gen_random_between(random, 1000, 1500)));
}

static bool shapes_find(struct shapes *shapes, uint64_t seed)
{
    static void (*const kinds[])(struct gen_dive * dive, struct gen_random * random) = {shape_shallow, shape_open,
                                                                                        shape_loop, shape_loop};
    for (int i = 0; i < SHAPES; i++) {
        char name[] = {'s', 'h', 'a', 'p', 'e', ' ', (char)('a' + i), '\0'};
        struct gen_random random = gen_random_named(seed, name);
        shapes->dive[i] = gen_dive_default(name);
        kinds[i % 4](&shapes->dive[i], &random);
        if (!gen_course_find(&shapes->course[i], &shapes->dive[i], GEN_AS_DIVED, seed, NULL)) {
            return false;
        }
    }
    return true;
}

/* One record of a shape: which of the diver's dives it is tells the day and the hour. */
static bool many_record(struct gen_record *record, struct gen_dive *dive, struct gen_recorder *recorder,
                        const struct shapes *shapes, const struct gen_many *many, int index)
{
    int diver = index % many->divers, turn = index / many->divers;
    struct plmi_text name;
    plmi_text_init(&name);
    plmi_text_printf(&name, "dive %d", index);
    struct gen_random random = gen_random_named(many->seed, name.failed ? "" : name.bytes);
    plmi_text_free(&name);
    int shape = (int)gen_random_between(&random, 0, SHAPES);
    *dive = shapes->dive[shape];
    snprintf(dive->diver, sizeof dive->diver, "diver %03d", diver + 1);
    int64_t minutes = (turn % 2 == 0 ? 480 : 870) + diver % 30;
    dive->start_ms = first_day_ms + turn / 2 * day_ms + minutes * 60000;
    *recorder = gen_recorder_default("heap");
    recorder->interval_s = many->interval_s;
    recorder->depth_offset_m = gen_random_between(&random, -0.2, 0.2);
    recorder->depth_scale = gen_random_between(&random, 0.995, 1.005);
    recorder->cells = dive->setpoint_count > 0 ? 3 : 0;
    for (int i = 0; i < GEN_CELLS; i++) {
        recorder->cell_gain[i] = gen_random_between(&random, 0.98, 1.02);
    }
    uint64_t own_seed = many->seed + (uint64_t)index;
    if (!gen_record_find(record, dive, &shapes->course[shape], recorder, NULL, own_seed)) {
        return false;
    }
    record->zone_min = 660;
    return true;
}

static bool many_files(const struct gen_many *many, const struct shapes *shapes)
{
    bool done = true;
    struct plmi_text text;
    plmi_text_init(&text);
    for (int i = 0; done && i < many->dives; i++) {
        struct gen_record record;
        struct gen_dive dive;
        struct gen_recorder recorder;
        char name[64];
        bool table = i / many->divers % 2 == 1;
        snprintf(name, sizeof name, "diver-%03d-%05d.%s", i % many->divers + 1, i + 1, table ? "csv" : "uddf");
        done = many_record(&record, &dive, &recorder, shapes, many, i);
        plmi_text_clear(&text);
        if (table) {
            gen_write_csv_preamble(&text, &record, 1);
        } else {
            gen_write_uddf(&text, &record, 1, NULL);
        }
        done = done && gen_file_write(&text, many->folder, name);
        gen_record_free(&record);
    }
    plmi_text_free(&text);
    return done;
}

/* Writes what stands in the text and empties it. */
static bool text_flush(struct plmi_text *text, FILE *file)
{
    bool done = !text->failed && fwrite(text->bytes, 1, text->count, file) == text->count;
    plmi_text_clear(text);
    return done;
}

static bool many_in_one(const struct gen_many *many, const struct shapes *shapes, FILE *file)
{
    struct gen_record records[2] = {{.count = 0}, {.count = 0}};
    struct gen_dive dives[2];
    struct gen_recorder recorders[2];
    struct gen_mixes mixes = {.count = 0};
    for (int i = 0; i < SHAPES; i++) {
        gen_mixes_take(&mixes, &shapes->dive[i]);
    }
    struct plmi_text text;
    plmi_text_init(&text);
    bool done = true;
    for (int i = 0; done && i < many->dives; i++) {
        int at = i % 2;
        gen_record_free(&records[at]);
        done = many_record(&records[at], &dives[at], &recorders[at], shapes, many, i);
        if (done && i == 0) {
            gen_uddf_begin(&text, &records[at], &mixes);
        }
        if (done) {
            gen_uddf_dive(&text, &records[at], i + 1, i > 0 ? &records[1 - at] : NULL, NULL, &mixes);
        }
        done = done && text_flush(&text, file);
    }
    gen_uddf_end(&text);
    done = text_flush(&text, file) && done;
    plmi_text_free(&text);
    gen_record_free(&records[0]);
    gen_record_free(&records[1]);
    return done;
}

bool gen_many_write(const struct gen_many *many)
{
    static struct shapes shapes;
    bool done = shapes_find(&shapes, many->seed);
    if (done && many->folder != NULL) {
        done = many_files(many, &shapes);
    }
    if (done && many->file != NULL) {
        FILE *file = fopen(many->file, "wb");
        struct gen_many one = *many;
        one.divers = 1;
        done = file != NULL && many_in_one(&one, &shapes, file);
        done = file != NULL && fclose(file) == 0 && done;
        if (!done) {
            fprintf(stderr, "%s: not written\n", many->file);
        }
    }
    for (int i = 0; i < SHAPES; i++) {
        gen_course_free(&shapes.course[i]);
    }
    return done;
}
