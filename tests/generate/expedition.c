/*
 * From a description to its files, each in its format. Must not know how a format writes.
 * SPDX-License-Identifier: MIT
 */
#include "generate/expedition.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "generate/writers.h"
#include "tissue/tissue.h"

/* Air at the surface for a while. */
static struct plm_tissue rested(const struct plm_tissue *tissue, double interval_s)
{
    struct plm_tissue after = *tissue;
    double n2_bar = (1.01325 - 0.0627) * 0.7902;
    struct plmi_leg leg = {interval_s, n2_bar, n2_bar, 0, 0};
    struct plmi_decay decay;
    plmi_decay_init(&decay, plm_zhl16_get(2));
    plmi_tissue_step(&after, &leg, &decay);
    return after;
}

/* Index of the diver's dive before this one in the description, or -1. */
static int dive_before(const struct gen_description *description, size_t index)
{
    const struct gen_dive *dive = &description->dives[index];
    for (size_t i = index; i-- > 0;) {
        const struct gen_dive *other = &description->dives[i];
        if (strcmp(other->diver, dive->diver) == 0 && other->start_ms < dive->start_ms) {
            return (int)i;
        }
    }
    return -1;
}

bool gen_courses_find(struct gen_courses *out, const struct gen_description *description)
{
    size_t count = description->dive_count;
    out->count = count;
    out->as_dived = calloc(count, sizeof *out->as_dived);
    out->as_planned = calloc(count, sizeof *out->as_planned);
    bool done = out->as_dived != NULL && out->as_planned != NULL;
    for (size_t i = 0; done && i < count; i++) {
        const struct gen_dive *dive = &description->dives[i];
        struct plm_tissue carried;
        const struct plm_tissue *start = NULL;
        int before = dive_before(description, i);
        if (before >= 0) {
            const struct gen_course *course = &out->as_dived[before];
            double since_s = (double)(dive->start_ms - description->dives[before].start_ms) / 1000;
            carried = rested(&course->end, since_s - (double)course->count);
            start = &carried;
        }
        done = gen_course_find(&out->as_dived[i], dive, GEN_AS_DIVED, description->seed, start) &&
               gen_course_find(&out->as_planned[i], dive, GEN_AS_PLANNED, description->seed, start);
    }
    return done;
}

void gen_courses_free(struct gen_courses *courses)
{
    for (size_t i = 0; i < courses->count; i++) {
        if (courses->as_dived != NULL) {
            gen_course_free(&courses->as_dived[i]);
        }
        if (courses->as_planned != NULL) {
            gen_course_free(&courses->as_planned[i]);
        }
    }
    free(courses->as_dived);
    free(courses->as_planned);
}

/* The folders on the way to a file; one that is there already is none to make. */
static void folders_make(char *path)
{
    for (char *slash = strchr(path + 1, '/'); slash != NULL; slash = strchr(slash + 1, '/')) {
        *slash = '\0';
        mkdir(path, 0777);
        *slash = '/';
    }
}

bool gen_file_write(const struct plmi_text *text, const char *folder, const char *name)
{
    struct plmi_text path;
    plmi_text_init(&path);
    plmi_text_printf(&path, "%s/%s", folder, name);
    if (!path.failed) {
        folders_make(path.bytes);
    }
    FILE *file = path.failed ? NULL : fopen(path.bytes, "wb");
    bool done = file != NULL && !text->failed && fwrite(text->bytes, 1, text->count, file) == text->count;
    if (file != NULL && fclose(file) != 0) {
        done = false;
    }
    if (!done) {
        fprintf(stderr, "%s/%s: not written\n", folder, name);
    }
    plmi_text_free(&path);
    return done;
}

static void write_uddf(struct plmi_text *out, const struct gen_record *records, int count)
{
    gen_write_uddf(out, records, count, NULL);
}

/* One format by name; plans: the dives as planned. */
static const struct {
    const char *name;
    bool plan;
    void (*write)(struct plmi_text *out, const struct gen_record *records, int count);
} formats[] = {
    {"csv", false, gen_write_csv},
    {"csv-semicolon", false, gen_write_csv_semicolon},
    {"csv-feet", false, gen_write_csv_feet},
    {"csv-pressure", false, gen_write_csv_pressure},
    {"csv-preamble", false, gen_write_csv_preamble},
    {"uddf", false, write_uddf},
    {"uddf-2", false, gen_write_uddf_2},
    {"card", false, gen_write_card},
    {"card-gas", false, gen_write_card_gas},
    {"plan-csv", true, gen_write_csv},
    {"plan-uddf", true, write_uddf},
};

/* The records of one file. */
struct sheet {
    struct gen_record records[4], plans[4];
    int count;
    bool with_plans;
};

static bool sheet_fill(struct sheet *sheet, const struct gen_description *d, const struct gen_courses *courses,
                       const struct gen_log *log, bool plan)
{
    static const struct gen_recorder paper = {.name = "plan", .interval_s = 1, .step_m = 0.01, .depth_scale = 1};
    const struct gen_recorder *recorder = plan ? &paper : gen_recorder_find(d, log->recorder);
    bool done = recorder != NULL && log->dive_count > 0;
    for (int i = 0; done && i < log->dive_count; i++) {
        const struct gen_dive *dive = gen_dive_find(d, log->dives[i]);
        if (dive == NULL) {
            return false;
        }
        size_t index = (size_t)(dive - d->dives);
        struct gen_record *record = &sheet->records[sheet->count++];
        if (plan) {
            done = gen_record_plan(record, dive, &courses->as_planned[index], recorder);
        } else {
            done = gen_record_find(record, dive, &courses->as_dived[index], recorder, log, d->seed) &&
                   gen_record_plan(&sheet->plans[i], dive, &courses->as_planned[index], &paper);
        }
        record->zone_min = d->zone_min;
        record->plan_file = log->plan;
        sheet->with_plans = dive->plan_in_log;
    }
    return done;
}

static void sheet_free(struct sheet *sheet)
{
    for (int i = 0; i < sheet->count; i++) {
        gen_record_free(&sheet->records[i]);
        gen_record_free(&sheet->plans[i]);
    }
}

static bool log_write(const struct gen_description *d, const struct gen_courses *courses, const struct gen_log *log,
                      const char *folder)
{
    size_t format = 0;
    while (format < sizeof formats / sizeof *formats && strcmp(formats[format].name, log->format) != 0) {
        format++;
    }
    struct sheet sheet = {.count = 0};
    struct plmi_text text;
    plmi_text_init(&text);
    bool done = format < sizeof formats / sizeof *formats && sheet_fill(&sheet, d, courses, log, formats[format].plan);
    if (done && sheet.with_plans && formats[format].write == write_uddf) {
        gen_write_uddf(&text, sheet.records, sheet.count, sheet.plans);
    } else if (done) {
        formats[format].write(&text, sheet.records, sheet.count);
    }
    if (log->cut_frac > 0) {
        text.count = (size_t)((double)text.count * log->cut_frac);
    }
    done = done && (!log->gzip || gen_gzip(&text)) && gen_file_write(&text, folder, log->file);
    if (!done) {
        fprintf(stderr, "%s: its dive, recorder or format is not known\n", log->file);
    }
    plmi_text_free(&text);
    sheet_free(&sheet);
    return done;
}

bool gen_files_write(const struct gen_description *description, const struct gen_courses *courses, const char *folder)
{
    for (size_t i = 0; i < description->log_count; i++) {
        if (!log_write(description, courses, &description->logs[i], folder)) {
            return false;
        }
    }
    return true;
}
