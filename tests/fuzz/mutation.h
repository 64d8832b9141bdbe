/*
 * For mutators that know the shape of an input: a buffer that is cut and pasted, seeded choices, values worth trying.
 * Every change is one splice. Must not know a format.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_FUZZ_MUTATION_H
#define PLM_FUZZ_MUTATION_H

#include <stddef.h>
#include <stdint.h>

/* An input in the making; bytes has room for max. */
struct mutation {
    uint8_t *bytes;
    size_t size, max;
    uint64_t state; /* of the choices */
};

/* Bytes from..to of the input. */
struct span {
    size_t from, to;
};

#define MUTATION_COUNT(table) (sizeof(table) / sizeof((table)[0]))

/* A number below limit; 0 where limit is 0. */
size_t mutation_below(struct mutation *mutation, size_t limit);
/* One time in n. */
int mutation_once_in(struct mutation *mutation, size_t n);
/* Replaces a span by n bytes, which may lie in the input itself; returns 0 and changes nothing where there is no room.
 */
int mutation_splice(struct mutation *mutation, struct span span, const void *bytes, size_t n);
int mutation_splice_text(struct mutation *mutation, struct span span, const char *text);
/* Puts a copy of a span somewhere else. */
int mutation_copy(struct mutation *mutation, struct span span, size_t to);
/* Exchanges two spans; nothing where they overlap. */
int mutation_swap(struct mutation *mutation, struct span a, struct span b);
/* A number, clock, word or piece of junk that readers have to decide upon. */
const char *mutation_value(struct mutation *mutation);

#endif
