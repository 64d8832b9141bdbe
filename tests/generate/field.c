/*
 * A field of dives: chooses kinds and faults by turns, and writes each dive with its truth. Holds no physics.
 * SPDX-License-Identifier: MIT
 */
#include "generate/field.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "generate/expedition.h"
#include "generate/writers.h"

/* How a log is written, and what its card must tell beside who and when. */
struct style {
    const char *ending;
    void (*write)(struct plmi_text *out, const struct gen_record *records, int count);
    void (*card)(struct plmi_text *out, const struct gen_record *records, int count);
};

static void write_uddf(struct plmi_text *out, const struct gen_record *records, int count)
{
    gen_write_uddf(out, records, count, NULL);
}

static const struct style uddf = {"uddf", write_uddf, NULL};
static const struct style uddf_with_plan = {"uddf", write_uddf, gen_write_card};
/* By turns; only the first two tell of a loop. */
static const struct style tables[] = {
    {"csv", gen_write_csv, gen_write_card},
    {"csv", gen_write_csv, gen_write_card},
    {"csv", gen_write_csv_semicolon, gen_write_card},
    {"csv", gen_write_csv_feet, gen_write_card_gas},
};

static const struct style *style_of(const struct gen_field_dive *field)
{
    int turn = field->number / GEN_KINDS + field->number;
    if (turn % 2 == 0) {
        return field->with_plan ? &uddf_with_plan : &uddf;
    }
    bool loop = field->dive.setpoint_count > 0;
    return &tables[turn / 2 % (loop ? 2 : 4)];
}

static bool text_write(const struct gen_record *record, const char *folder, const char *name,
                       void (*write)(struct plmi_text *out, const struct gen_record *records, int count))
{
    struct plmi_text text;
    plmi_text_init(&text);
    write(&text, record, 1);
    bool done = gen_file_write(&text, folder, name);
    plmi_text_free(&text);
    return done;
}

/* What is written of one dive. */
struct sheet {
    const struct gen_field *set;
    struct gen_field_dive field;
    const struct style *style;
    struct gen_record record;
    struct gen_lived lived;
    char log[80], card[80], plan[80], flat[80], second[80];
};

/* The dive once more, as another record has it. */
static bool variant_write(const struct sheet *sheet, const struct gen_field_dive *field, const char *name)
{
    struct gen_lived lived;
    struct gen_record record = {.count = 0};
    uint64_t seed = sheet->set->seed;
    bool done = gen_lived_find(&lived, &field->dive, &field->travel, &field->nature, &field->mishap, seed) &&
                gen_record_find(&record, &field->dive, &lived.course, &field->recorder, NULL, seed);
    record.plan_file = "";
    done = done && text_write(&record, sheet->set->folder, name, sheet->style->write);
    char card[96];
    snprintf(card, sizeof card, "%.*s.card", (int)(strrchr(name, '.') - name), name);
    if (sheet->style->card != NULL) {
        done = done && text_write(&record, sheet->set->folder, card, sheet->style->card);
    }
    gen_record_free(&record);
    gen_lived_free(&lived);
    return done;
}

static bool flat_write(struct sheet *sheet)
{
    struct gen_field_dive flat = sheet->field;
    flat.nature.bob_s = 0;
    snprintf(sheet->flat, sizeof sheet->flat, "%s-flat.%s", sheet->field.dive.name, sheet->style->ending);
    return variant_write(sheet, &flat, sheet->flat);
}

static bool second_write(struct sheet *sheet)
{
    struct gen_field_dive second = sheet->field;
    snprintf(second.recorder.name, sizeof second.recorder.name, "second recorder");
    second.recorder.clock_offset_s = sheet->field.second_off_s;
    second.recorder.depth_offset_m = 0.1;
    snprintf(sheet->second, sizeof sheet->second, "%s-second.%s", sheet->field.dive.name, sheet->style->ending);
    return variant_write(sheet, &second, sheet->second);
}

static bool plan_write(struct sheet *sheet)
{
    static const struct gen_recorder paper = {.name = "plan", .interval_s = 1, .step_m = 0.01, .depth_scale = 1};
    static const struct gen_nature still = {.last_stop_m = 3};
    static const struct gen_mishap nothing = {.cut = {.left_s = 0}};
    struct gen_nature nature = still;
    nature.last_stop_m = sheet->field.nature.last_stop_m;
    struct gen_lived lived;
    struct gen_record record = {.count = 0};
    bool done = gen_lived_find(&lived, &sheet->field.plan, &sheet->field.travel, &nature, &nothing, 0) &&
                gen_record_plan(&record, &sheet->field.plan, &lived.course, &paper);
    bool table = sheet->field.number % 2 == 0;
    snprintf(sheet->plan, sizeof sheet->plan, "%s-plan.%s", sheet->field.dive.name, table ? "csv" : "uddf");
    done = done && text_write(&record, sheet->set->folder, sheet->plan, table ? gen_write_csv : write_uddf);
    gen_record_free(&record);
    gen_lived_free(&lived);
    return done;
}

/* Tells of a fault, changing the record where it is the recorder's. */
static int fault_tell(struct gen_line *lines, int count, const struct gen_fault *fault, struct gen_made *made)
{
    lines[count] = (struct gen_line){.fault = fault->name, .also = "", .unit = "", .severity = ""};
    if (!fault->tell(&lines[count], made)) {
        return count;
    }
    if (count == 0) {
        made->busy_from_s = lines[0].from_s;
        made->busy_to_s = lines[0].to_s;
    }
    return count + 1;
}

enum written { WRITTEN, NO_PLACE, NOT_WRITTEN };

static enum written sheet_write(struct sheet *sheet, const struct gen_fault *const *faults, int fault_count)
{
    const char *folder = sheet->set->folder, *name = sheet->field.dive.name;
    struct gen_made made = {&sheet->field, &sheet->lived, &sheet->record, (double)NAN, (double)NAN, sheet->set->seed};
    struct gen_line lines[2];
    int count = 0;
    for (int i = 0; i < fault_count; i++) {
        count = fault_tell(lines, count, faults[i], &made);
    }
    if (count < fault_count) {
        return NO_PLACE;
    }
    snprintf(sheet->log, sizeof sheet->log, "%s.%s", name, sheet->style->ending);
    bool done = (!sheet->field.with_plan || plan_write(sheet)) && (!sheet->field.with_flat || flat_write(sheet)) &&
                (!sheet->field.with_second || second_write(sheet));
    sheet->record.plan_file = sheet->plan;
    if (sheet->style->card != NULL) {
        snprintf(sheet->card, sizeof sheet->card, "%s.card", name);
        done = done && text_write(&sheet->record, folder, sheet->card, sheet->style->card);
    }
    const char *texts[] = {sheet->log, sheet->card, sheet->plan, sheet->flat, sheet->second};
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
        texts[i] = texts[i][0] != '\0' ? texts[i] : NULL;
    }
    struct gen_names names = {name, texts[0], texts[1], texts[2], texts[3], texts[4]};
    done = done && text_write(&sheet->record, folder, sheet->log, sheet->style->write) &&
           gen_truth_write(&made, &names, lines, count, folder);
    return done ? WRITTEN : NOT_WRITTEN;
}

static enum written dive_write(const struct gen_field *set, struct gen_field_dive *field,
                               const struct gen_fault *const *faults, int fault_count)
{
    struct sheet sheet = {.set = set, .field = *field, .style = style_of(field)};
    bool done =
        gen_lived_find(&sheet.lived, &field->dive, &field->travel, &field->nature, &field->mishap, set->seed) &&
        gen_record_find(&sheet.record, &sheet.field.dive, &sheet.lived.course, &sheet.field.recorder, NULL, set->seed);
    enum written written = done ? sheet_write(&sheet, faults, fault_count) : NOT_WRITTEN;
    gen_record_free(&sheet.record);
    gen_lived_free(&sheet.lived);
    return written;
}

static bool clean_write(const struct gen_field *set, int number)
{
    char name[32];
    snprintf(name, sizeof name, "clean-%03d", number + 1);
    struct gen_random random = gen_random_named(set->seed, name);
    struct gen_field_dive field;
    gen_field_dive_find(&field, (enum gen_kind)(number % GEN_KINDS), number, name, &random);
    return dive_write(set, &field, NULL, 0) == WRITTEN;
}

static bool is_fit(const struct gen_fault *fault, int kind)
{
    return (fault->kinds & (1u << kind)) != 0;
}

/* The turn-th kind of those that a fault fits. */
static enum gen_kind kind_of(const struct gen_fault *fault, int turn)
{
    int fitting = 0, kind = 0;
    for (int i = 0; i < GEN_KINDS; i++) {
        fitting += is_fit(fault, i);
    }
    for (int left = turn % fitting; !is_fit(fault, kind) || left-- > 0;) {
        kind++;
    }
    return (enum gen_kind)kind;
}

/* The turn-th fault of a recorder that may come beside the first on a dive of this kind. */
static const struct gen_fault *second_of(const struct gen_fault *first, enum gen_kind kind, int turn)
{
    const struct gen_fault *fitting[32];
    int count = 0;
    for (int i = 0; i < gen_fault_count && count < 32; i++) {
        const struct gen_fault *fault = &gen_faults[i];
        if (fault->second && is_fit(fault, (int)kind) && !(fault->oxygen && first->oxygen)) {
            fitting[count++] = fault;
        }
    }
    return count > 0 ? fitting[turn % count] : NULL;
}

/* Dives a dive with its faults. */
static enum written faulty_try(const struct gen_field *set, int number, int turn)
{
    char name[32], stream[48];
    snprintf(name, sizeof name, "fault-%03d", number + 1);
    snprintf(stream, sizeof stream, "%s try %d", name, turn);
    struct gen_random random = gen_random_named(set->seed, stream);
    const struct gen_fault *faults[2] = {&gen_faults[number % gen_fault_count], NULL};
    enum gen_kind kind = kind_of(faults[0], number / gen_fault_count + turn);
    if (!faults[0]->second && number % 3 == 0) {
        faults[1] = second_of(faults[0], kind, number / 3 + turn);
    }
    struct gen_field_dive field;
    gen_field_dive_find(&field, kind, number, name, &random);
    int count = 0;
    for (; count < 2 && faults[count] != NULL; count++) {
        if (faults[count]->plant != NULL) {
            field.recorder.change_m = 0; /* what happened to the diver is not hidden by silence */
            faults[count]->plant(&field, &random);
        }
    }
    return dive_write(set, &field, faults, count);
}

/* Not every dive has a place for every fault: another one is dived then. */
static bool faulty_write(const struct gen_field *set, int number)
{
    enum written written = NO_PLACE;
    for (int turn = 0; turn < 40 && written == NO_PLACE; turn++) {
        written = faulty_try(set, number, turn);
    }
    if (written == NO_PLACE) {
        fprintf(stderr, "fault-%03d: no dive has a place for it\n", number + 1);
    }
    return written == WRITTEN;
}

bool gen_field_write(const struct gen_field *field)
{
    bool done = true;
    for (int i = 0; done && i < field->clean; i++) {
        done = clean_write(field, i);
    }
    for (int i = 0; done && i < field->faulty; i++) {
        done = faulty_write(field, i);
    }
    return done;
}
