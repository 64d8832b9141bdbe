/*
 * A field of dives whose truth is known: clean ones, and ones with planted faults. Each is a log, a card or a plan
 * where needed, and `<name>.truth.json`.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_GENERATE_FIELD_H
#define PLM_GENERATE_FIELD_H

#include "generate/field_diver.h"
#include "generate/random.h"
#include "generate/record.h"

struct gen_field {
    int clean, faulty; /* so many of each */
    uint64_t seed;
    const char *folder;
};

/* Says on stderr what fails. */
bool gen_field_write(const struct gen_field *field);

enum gen_kind {
    GEN_KIND_LOOP,
    GEN_KIND_OPEN_TWO,
    GEN_KIND_OPEN_THREE,
    GEN_KIND_NITROX,
    GEN_KIND_NITROX_STOPS,
    GEN_KIND_BAILOUT,
    GEN_KINDS
};

/* One dive before it is dived. */
struct gen_field_dive {
    enum gen_kind kind;
    int number; /* of its field, from 0 */
    struct gen_dive dive;
    struct gen_travel travel;
    struct gen_nature nature;
    struct gen_mishap mishap;
    struct gen_recorder recorder;
    bool with_plan, with_flat, with_second; /* a plan; the same with a flat end; a second recorder */
    struct gen_dive plan;
    double second_off_s; /* the second recorder's clock */
};

/* One that was dived and recorded. */
struct gen_made {
    const struct gen_field_dive *field;
    const struct gen_lived *lived;
    struct gen_record *record;
    double busy_from_s, busy_to_s; /* where the first fault is, by the recorder; NaN none */
    uint64_t seed;
};

/* One line of truth; times by the recorder. */
struct gen_line {
    const char *fault, *kind, *also; /* also: kinds of the same event, by spaces */
    const char *unit, *severity;     /* severity: those that the rules allow, by spaces; "" no finding is due */
    double from_s, to_s, value, tolerance;
};

/* What can be planted: where, what of the dive changes for it, and what is true of it then. */
struct gen_fault {
    const char *name;
    unsigned kinds;                                                         /* 1 << enum gen_kind */
    void (*plant)(struct gen_field_dive *field, struct gen_random *random); /* NULL: nothing before the dive */
    /* May change the record. Returns: false where it found no place; then there is no such fault. */
    bool (*tell)(struct gen_line *line, struct gen_made *made);
    bool second; /* may come beside another */
    bool oxygen; /* hangs on the oxygen of the loop, or disturbs it: two such never come together */
};

extern const struct gen_fault gen_faults[];
extern const int gen_fault_count;

/* A dive of a kind. */
void gen_field_dive_find(struct gen_field_dive *out, enum gen_kind kind, int number, const char *name,
                         struct gen_random *random);
const char *gen_kind_word(enum gen_kind kind);

/* Truth as JSON. lines[count]; log, card, plan, flat, second: names of files, NULL none. */
struct gen_names {
    const char *name, *log, *card, *plan, *flat, *second;
};
bool gen_truth_write(const struct gen_made *made, const struct gen_names *names, const struct gen_line *lines,
                     int count, const char *folder);

#endif
