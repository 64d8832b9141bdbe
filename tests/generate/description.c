/*
 * Reads the description of an expedition (INI). Must not guess: a key that is not known is an error.
 * SPDX-License-Identifier: MIT
 */
#include "generate/description.h"

#include <ini.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/arena.h"
#include "base/clock.h"
#include "base/number.h"
#include "generate/words.h"

/* Sets one field from a value. */
typedef bool (*gen_set)(void *field, const char *value);

struct key {
    const char *name;
    size_t offset;
    gen_set set;
};

static bool set_text(void *field, const char *value)
{
    size_t n = strlen(value);
    if (n == 0 || n >= GEN_NAME) {
        return false;
    }
    memcpy(field, value, n + 1);
    return true;
}

static bool set_number(void *field, const char *value)
{
    return gen_number(value, field);
}

static bool set_duration(void *field, const char *value)
{
    return gen_duration(value, field);
}

static bool set_yes(void *field, const char *value)
{
    *(bool *)field = strcmp(value, "yes") == 0;
    return *(bool *)field || strcmp(value, "no") == 0;
}

static bool set_start(void *field, const char *value)
{
    struct plm_stamp stamp;
    if (!plmi_clock_parse(value, strlen(value), &stamp)) {
        return false;
    }
    *(int64_t *)field = stamp.local_ms;
    return true;
}

static bool set_mode(void *field, const char *value)
{
    for (int mode = PLM_MODE_OPEN; mode <= PLM_MODE_SEMICLOSED; mode++) {
        if (strcmp(value, plm_mode_text((enum plm_mode)mode)) == 0) {
            *(enum plm_mode *)field = (enum plm_mode)mode;
            return true;
        }
    }
    return false;
}

static bool set_mix(void *field, const char *value)
{
    return gen_mix(value, field);
}

/* "112 until 12:00, 104 until 18:00" */
static bool set_levels(void *field, const char *value)
{
    struct gen_dive *dive = field;
    struct gen_part part;
    while (gen_part_next(&part, &value)) {
        struct gen_level *level = &dive->levels[dive->level_count];
        if (dive->level_count == GEN_LEVELS || part.count != 3 || strcmp(part.words[1], "until") != 0 ||
            !gen_number(part.words[0], &level->depth_m) || !gen_duration(part.words[2], &level->until_s)) {
            return false;
        }
        dive->level_count++;
    }
    return *value == '\0' && dive->level_count > 0;
}

/* "0.7 start, 1.2 down 20, 1.3 first-stop" */
static bool set_setpoints(void *field, const char *value)
{
    static const char *const whens[] = {"start", "down", "first-stop"};
    struct gen_dive *dive = field;
    struct gen_part part;
    while (gen_part_next(&part, &value)) {
        struct gen_setpoint *setpoint = &dive->setpoints[dive->setpoint_count];
        if (dive->setpoint_count == GEN_SETPOINTS || part.count < 2 || !gen_number(part.words[0], &setpoint->bar)) {
            return false;
        }
        int when = 0;
        while (when < 3 && strcmp(part.words[1], whens[when]) != 0) {
            when++;
        }
        setpoint->when = (enum gen_when)when;
        if (when == 3 || part.count != (when == GEN_DOWN ? 3 : 2) ||
            (when == GEN_DOWN && !gen_number(part.words[2], &setpoint->depth_m))) {
            return false;
        }
        dive->setpoint_count++;
    }
    return *value == '\0' && dive->setpoint_count > 0;
}

/* "0.50/0.20 at 21, 0.80/0 at 9" */
static bool set_deco(void *field, const char *value)
{
    struct gen_dive *dive = field;
    struct gen_part part;
    while (gen_part_next(&part, &value)) {
        struct gen_deco *deco = &dive->deco[dive->deco_count];
        if (dive->deco_count == GEN_MIXES || part.count != 3 || strcmp(part.words[1], "at") != 0 ||
            !gen_mix(part.words[0], &deco->mix) || !gen_number(part.words[2], &deco->depth_m)) {
            return false;
        }
        dive->deco_count++;
    }
    return *value == '\0' && dive->deco_count > 0;
}

/* "22 from 104 to 84": m/min and m */
static bool set_fast(void *field, const char *value)
{
    struct gen_fast *fast = field;
    struct gen_part part;
    return gen_part_next(&part, &value) && part.count == 5 && gen_number(part.words[0], &fast->rate_m_min) &&
           gen_number(part.words[2], &fast->from_m) && gen_number(part.words[4], &fast->to_m);
}

/* "at 6 after 1:30 by 1.9 for 0:50" */
static bool set_rise(void *field, const char *value)
{
    struct gen_rise *rise = field;
    struct gen_part part;
    return gen_part_next(&part, &value) && part.count == 8 && gen_number(part.words[1], &rise->stop_m) &&
           gen_duration(part.words[3], &rise->after_s) && gen_number(part.words[5], &rise->by_m) &&
           gen_duration(part.words[7], &rise->for_s);
}

/* "at 6 by 3:00" */
static bool set_cut(void *field, const char *value)
{
    struct gen_cut *cut = field;
    struct gen_part part;
    return gen_part_next(&part, &value) && part.count == 4 && gen_number(part.words[1], &cut->stop_m) &&
           gen_duration(part.words[3], &cut->left_s);
}

/* "at 5 for 3:00" */
static bool set_safety(void *field, const char *value)
{
    struct gen_safety *safety = field;
    struct gen_part part;
    return gen_part_next(&part, &value) && part.count == 4 && gen_number(part.words[1], &safety->stop_m) &&
           gen_duration(part.words[3], &safety->for_s);
}

/* "1.01 0.99 1.00": one gain a cell */
static bool set_cells(void *field, const char *value)
{
    struct gen_recorder *recorder = field;
    struct gen_part part;
    if (!gen_part_next(&part, &value) || part.count > GEN_CELLS) {
        return false;
    }
    recorder->cells = part.count;
    for (int i = 0; i < part.count; i++) {
        if (!gen_number(part.words[i], &recorder->cell_gain[i])) {
            return false;
        }
    }
    return true;
}

/* "12:00 to 14:10, ..." */
static bool set_gaps(void *field, const char *value)
{
    struct gen_log *log = field;
    struct gen_part part;
    while (gen_part_next(&part, &value)) {
        struct gen_gap *gap = &log->gaps[log->gap_count];
        if (log->gap_count == GEN_GAPS || part.count != 3 || !gen_duration(part.words[0], &gap->from_s) ||
            !gen_duration(part.words[2], &gap->to_s)) {
            return false;
        }
        log->gap_count++;
    }
    return *value == '\0' && log->gap_count > 0;
}

/* "deep-a, deep-b" */
static bool set_dives(void *field, const char *value)
{
    struct gen_log *log = field;
    struct gen_part part;
    while (gen_part_next(&part, &value)) {
        if (log->dive_count == 4 || part.count != 1 || !set_text(log->dives[log->dive_count], part.words[0])) {
            return false;
        }
        log->dive_count++;
    }
    return *value == '\0' && log->dive_count > 0;
}

static bool set_seed(void *field, const char *value)
{
    int64_t seed;
    if (!plmi_integer_parse(value, strlen(value), &seed)) {
        return false;
    }
    *(uint64_t *)field = (uint64_t)seed;
    return true;
}

static bool set_zone(void *field, const char *value)
{
    return plmi_clock_zone_parse(value, field);
}

#define DIVE(field)     offsetof(struct gen_dive, field)
#define RECORDER(field) offsetof(struct gen_recorder, field)
#define LOG(field)      offsetof(struct gen_log, field)

static const struct key expedition_keys[] = {
    {"name", offsetof(struct gen_description, name), set_text},
    {"site", offsetof(struct gen_description, site), set_text},
    {"seed", offsetof(struct gen_description, seed), set_seed},
    {"zone", offsetof(struct gen_description, zone_min), set_zone},
    {NULL, 0, NULL},
};

static const struct key dive_keys[] = {
    {"diver", DIVE(diver), set_text},
    {"start", DIVE(start_ms), set_start},
    {"mode", DIVE(mode), set_mode},
    {"mix", DIVE(mix), set_mix},
    {"levels", 0, set_levels},
    {"setpoints", 0, set_setpoints},
    {"deco", 0, set_deco},
    {"descent_m_min", DIVE(descent_m_min), set_number},
    {"ascent_m_min", DIVE(ascent_m_min), set_number},
    {"shallow_m_min", DIVE(shallow_m_min), set_number},
    {"last_m_min", DIVE(last_m_min), set_number},
    {"gf_low_pct", DIVE(gf_low_pct), set_number},
    {"gf_high_pct", DIVE(gf_high_pct), set_number},
    {"margin_m", DIVE(margin_m), set_number},
    {"surface_bar", DIVE(surface_bar), set_number},
    {"wave_m", DIVE(wave_m), set_number},
    {"wave_s", DIVE(wave_s), set_number},
    {"surface_c", DIVE(surface_c), set_number},
    {"deep_c", DIVE(deep_c), set_number},
    {"overrun", DIVE(overrun_s), set_duration},
    {"bailout", DIVE(bailout_s), set_duration},
    {"fast", DIVE(fast), set_fast},
    {"rise", DIVE(rise), set_rise},
    {"cut", DIVE(cut), set_cut},
    {"safety", DIVE(safety), set_safety},
    {"plan_in_log", DIVE(plan_in_log), set_yes},
    {NULL, 0, NULL},
};

static const struct key recorder_keys[] = {
    {"interval_s", RECORDER(interval_s), set_number},
    {"step_m", RECORDER(step_m), set_number},
    {"noise_m", RECORDER(noise_m), set_number},
    {"depth_offset_m", RECORDER(depth_offset_m), set_number},
    {"depth_scale", RECORDER(depth_scale), set_number},
    {"clock_offset", RECORDER(clock_offset_s), set_duration},
    {"clock_drift_ppm", RECORDER(clock_drift_ppm), set_number},
    {"cells", 0, set_cells},
    {"late", RECORDER(late_s), set_duration},
    {NULL, 0, NULL},
};

static const struct key log_keys[] = {
    {"dive", 0, set_dives},
    {"recorder", LOG(recorder), set_text},
    {"format", LOG(format), set_text},
    {"gzip", LOG(gzip), set_yes},
    {"cut_frac", LOG(cut_frac), set_number},
    {"gaps", 0, set_gaps},
    {"plan", LOG(plan), set_text},
    {NULL, 0, NULL},
};

struct gen_dive gen_dive_default(const char *name)
{
    struct gen_dive dive = {
        .descent_m_min = 18,
        .ascent_m_min = 8,
        .shallow_m_min = 4,
        .last_m_min = 3,
        .gf_low_pct = 30,
        .gf_high_pct = 70,
        .margin_m = 0.5,
        .wave_m = 0.25,
        .wave_s = 8,
        .surface_c = 27,
        .deep_c = 14,
    };
    set_text(dive.name, name);
    set_text(dive.diver, "nobody");
    return dive;
}

struct gen_recorder gen_recorder_default(const char *name)
{
    struct gen_recorder recorder = {
        .interval_s = 10,
        .step_m = 0.1,
        .noise_m = 0.02,
        .depth_scale = 1,
        .cell_lag_s = {6, 6, 6},
        .cell_noise_bar = 0.004,
    };
    set_text(recorder.name, name);
    return recorder;
}

/* A growing array whose items begin with their name. */
struct list {
    void *items;
    size_t count, capacity, size;
};

/* The item that bears the name, added as needed. */
static void *list_get(struct list *list, const char *name, const void *fresh)
{
    for (size_t i = 0; i < list->count; i++) {
        char *item = (char *)list->items + i * list->size;
        if (strcmp(item, name) == 0) {
            return item;
        }
    }
    if (!plmi_array_grow(&list->items, &list->capacity, list->count, list->size)) {
        return NULL;
    }
    return memcpy((char *)list->items + list->count++ * list->size, fresh, list->size);
}

static void *dive_get(struct gen_description *d, const char *name)
{
    struct gen_dive fresh = gen_dive_default(name);
    struct list list = {d->dives, d->dive_count, d->dive_capacity, sizeof fresh};
    void *dive = list_get(&list, name, &fresh);
    d->dives = list.items;
    d->dive_count = list.count;
    d->dive_capacity = list.capacity;
    return dive;
}

static void *recorder_get(struct gen_description *d, const char *name)
{
    struct gen_recorder fresh = gen_recorder_default(name);
    struct list list = {d->recorders, d->recorder_count, d->recorder_capacity, sizeof fresh};
    void *recorder = list_get(&list, name, &fresh);
    d->recorders = list.items;
    d->recorder_count = list.count;
    d->recorder_capacity = list.capacity;
    return recorder;
}

static void *log_get(struct gen_description *d, const char *name)
{
    struct gen_log fresh = {.file = ""};
    set_text(fresh.file, name);
    struct list list = {d->logs, d->log_count, d->log_capacity, sizeof fresh};
    void *log = list_get(&list, name, &fresh);
    d->logs = list.items;
    d->log_count = list.count;
    d->log_capacity = list.capacity;
    return log;
}

static void *expedition_get(struct gen_description *d, const char *name)
{
    return *name == '\0' ? d : NULL;
}

/* Finds what a section names, and the keys that it may have. */
static void *section_find(struct gen_description *d, const char *section, const struct key **keys)
{
    static const struct {
        const char *word;
        void *(*get)(struct gen_description *d, const char *name);
        const struct key *keys;
    } kinds[] = {
        {"expedition", expedition_get, expedition_keys},
        {"dive", dive_get, dive_keys},
        {"recorder", recorder_get, recorder_keys},
        {"file", log_get, log_keys},
    };
    size_t n = strcspn(section, " ");
    const char *name = section + n + (section[n] == ' ');
    for (size_t i = 0; i < sizeof kinds / sizeof *kinds; i++) {
        if (strlen(kinds[i].word) == n && memcmp(kinds[i].word, section, n) == 0) {
            *keys = kinds[i].keys;
            return strlen(name) < GEN_NAME ? kinds[i].get(d, name) : NULL;
        }
    }
    return NULL;
}

static int take_line(void *user, const char *section, const char *name, const char *value)
{
    const struct key *keys = NULL;
    char *thing = section_find(user, section, &keys);
    for (; thing != NULL && keys->name != NULL; keys++) {
        if (strcmp(keys->name, name) == 0) {
            return keys->set(thing + keys->offset, value);
        }
    }
    return 0;
}

bool gen_description_read(struct gen_description *out, const char *path)
{
    *out = (struct gen_description){.name = ""};
    int line = ini_parse(path, take_line, out);
    if (line != 0) {
        fprintf(stderr, "%s:%d: not understood\n", path, line > 0 ? line : 0);
        return false;
    }
    return true;
}

void gen_description_free(struct gen_description *description)
{
    free(description->dives);
    free(description->recorders);
    free(description->logs);
}

const struct gen_dive *gen_dive_find(const struct gen_description *description, const char *name)
{
    for (size_t i = 0; i < description->dive_count; i++) {
        if (strcmp(description->dives[i].name, name) == 0) {
            return &description->dives[i];
        }
    }
    return NULL;
}

const struct gen_recorder *gen_recorder_find(const struct gen_description *description, const char *name)
{
    for (size_t i = 0; i < description->recorder_count; i++) {
        if (strcmp(description->recorders[i].name, name) == 0) {
            return &description->recorders[i];
        }
    }
    return NULL;
}
