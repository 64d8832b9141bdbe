/*
 * Splices and seeded choices of the mutators.
 * SPDX-License-Identifier: MIT
 */
#include "fuzz/mutation.h"

#include <stdlib.h>
#include <string.h>

static const char *const VALUES[] = {"0",
                                     "1",
                                     "-1",
                                     "-0",
                                     "0.1",
                                     "0.21",
                                     "0.5",
                                     "1.0",
                                     "1.3",
                                     "1.6",
                                     "1.613",
                                     "2",
                                     "3",
                                     "6",
                                     "9",
                                     "12.5",
                                     "21",
                                     "32",
                                     "45",
                                     "60",
                                     "100",
                                     "110",
                                     "320",
                                     "1013",
                                     "1013.25",
                                     "9999",
                                     "65535",
                                     "6553.5",
                                     "86399",
                                     "86400",
                                     "101325",
                                     "130000",
                                     "2147483647",
                                     "2147483648",
                                     "4294967295",
                                     "4294967296",
                                     "9223372036854775807",
                                     "-9223372036854775808",
                                     "1e9",
                                     "1e15",
                                     "1e18",
                                     "1e300",
                                     "1e-300",
                                     "1e999",
                                     "-1e999",
                                     "4e12",
                                     "0x10",
                                     "1,5",
                                     "1.5.2",
                                     ".",
                                     "-",
                                     "+",
                                     "e",
                                     "nan",
                                     "inf",
                                     "-inf",
                                     "infinity",
                                     "",
                                     " ",
                                     "-50",
                                     "0.000000001",
                                     "00:00:00",
                                     "00:00:59",
                                     "12:00",
                                     "23:59:59",
                                     "24:00:00",
                                     "11:59:59 pm",
                                     "99:99:99",
                                     "1:2:3:4",
                                     "2031-05-06",
                                     "05/06/2031",
                                     "31.12.2031",
                                     "0000-00-00",
                                     "9999-12-31",
                                     "2031-02-30",
                                     "2031-05-06T09:30:00",
                                     "2031-05-06T09:30:00Z",
                                     "2031-05-06T09:30:00+11:00",
                                     "2031-05-06T09:30:00-23:59",
                                     "-9999-01-01T00:00:00Z",
                                     "9999-12-31T23:59:59.999999Z",
                                     "1970-01-01T00:00:00Z",
                                     "closedcircuit",
                                     "opencircuit",
                                     "semiclosedcircuit",
                                     "apnoe",
                                     "closed",
                                     "open",
                                     "air",
                                     "18/45",
                                     "EAN32",
                                     "oxygen",
                                     "150/10",
                                     "0/0",
                                     "a",
                                     "b",
                                     "m1",
                                     "d",
                                     "user",
                                     "computer",
                                     "true",
                                     "yes",
                                     "12 ft",
                                     "14.2 m",
                                     "21 C",
                                     "3000 psi",
                                     "1.2 bar",
                                     "\xff\xfe",
                                     "\xc3\x28",
                                     "\xe2\x80\xae",
                                     "\x1b[2J",
                                     "&amp;",
                                     "&#0;",
                                     "&#x110000;",
                                     "]]>",
                                     "<!--",
                                     "\"",
                                     "\"\"",
                                     "'",
                                     "=1+1"};

size_t mutation_below(struct mutation *mutation, size_t limit)
{
    /* A linear congruential generator with the multiplier and increment of Knuth's MMIX; the high bits. */
    mutation->state = mutation->state * 6364136223846793005U + 1442695040888963407U;
    return limit == 0 ? 0 : (size_t)(mutation->state >> 33) % limit;
}

int mutation_once_in(struct mutation *mutation, size_t n)
{
    return mutation_below(mutation, n) == 0;
}

int mutation_splice(struct mutation *mutation, struct span span, const void *bytes, size_t n)
{
    size_t rest = mutation->size - span.to;
    uint8_t *copy = malloc(n + 1);
    if (copy == NULL || span.from + n + rest > mutation->max) {
        free(copy);
        return 0;
    }
    memcpy(copy, bytes, n);
    memmove(mutation->bytes + span.from + n, mutation->bytes + span.to, rest);
    memcpy(mutation->bytes + span.from, copy, n);
    mutation->size = span.from + n + rest;
    free(copy);
    return 1;
}

int mutation_splice_text(struct mutation *mutation, struct span span, const char *text)
{
    return mutation_splice(mutation, span, text, strlen(text));
}

int mutation_copy(struct mutation *mutation, struct span span, size_t to)
{
    return mutation_splice(mutation, (struct span){to, to}, mutation->bytes + span.from, span.to - span.from);
}

int mutation_swap(struct mutation *mutation, struct span a, struct span b)
{
    struct span first = a.from <= b.from ? a : b, second = a.from <= b.from ? b : a;
    if (first.to > second.from) {
        return 0;
    }
    size_t n = second.to - first.from, n1 = first.to - first.from, n2 = second.to - second.from,
           between = second.from - first.to;
    uint8_t *copy = malloc(n + 1);
    if (copy == NULL) {
        return 0;
    }
    memcpy(copy, mutation->bytes + second.from, n2);
    memcpy(copy + n2, mutation->bytes + first.to, between);
    memcpy(copy + n2 + between, mutation->bytes + first.from, n1);
    memcpy(mutation->bytes + first.from, copy, n);
    free(copy);
    return 1;
}

const char *mutation_value(struct mutation *mutation)
{
    return VALUES[mutation_below(mutation, MUTATION_COUNT(VALUES))];
}
