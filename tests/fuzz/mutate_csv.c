/*
 * Mutates tables by rows and cells: copied, dropped, swapped, replaced by words of headers, units, values; lines before
 * the header; other separators and line ends. One time in four libFuzzer's own mutations. The first byte of an input
 * chooses options and is no text.
 * SPDX-License-Identifier: MIT
 */
#include <string.h>

#include "fuzz/mutation.h"

size_t LLVMFuzzerMutate(uint8_t *data, size_t size, size_t max);
size_t LLVMFuzzerCustomMutator(uint8_t *data, size_t size, size_t max, unsigned int seed);

static const char *const HEADS[] = {"time_s",
                                    "depth_m",
                                    "time (min)",
                                    "Zeit",
                                    "Tiefe [m]",
                                    "profondeur",
                                    "depth (ft)",
                                    "depth",
                                    "time",
                                    "absolute pressure (mbar)",
                                    "pressure",
                                    "pression",
                                    "po2",
                                    "PO2 (bar)",
                                    "po2_bar",
                                    "cell 1",
                                    "cell 2 (mV)",
                                    "sensor 3",
                                    "setpoint",
                                    "set point (bar)",
                                    "temperature (F)",
                                    "temp_c",
                                    "mode",
                                    "circuit",
                                    "o2_frac",
                                    "he_frac",
                                    "O2 %",
                                    "He",
                                    "n2",
                                    "gas",
                                    "mix",
                                    "diluent",
                                    "date",
                                    "Datum",
                                    "clock",
                                    "timestamp",
                                    "dive no",
                                    "dive",
                                    "event",
                                    "alarm",
                                    "heading",
                                    "tank pressure (psi)",
                                    "ceiling",
                                    "stop",
                                    "cns",
                                    "tts",
                                    "ndl",
                                    "rate",
                                    "interval",
                                    "unit"};
static const char *const LINES[] = {"Surface pressure: 1013 mbar\n",
                                    "Start: 2031-05-06 09:30\n",
                                    "Date;16.05.2031\n",
                                    "Interval: 10 s\n",
                                    "Units: imperial\n",
                                    "Water: salt\n",
                                    "Density: 1100\n",
                                    "Altitude: 2000 m\n",
                                    "Diver: A\n",
                                    "Dive number: 7\n",
                                    "# comment\n",
                                    "s,m,C\n",
                                    "sep=;\n",
                                    "\n",
                                    ",,,,\n",
                                    "\"a\nb\",1\n",
                                    "Notes: \"x\n",
                                    "end\n"};
static const char SEPARATORS[] = ",;\t|";

/* The line around a byte, its end included. */
static struct span line_at(const struct mutation *mutation, size_t at)
{
    size_t from = at, to = at;
    while (from > 1 && mutation->bytes[from - 1] != '\n') {
        from--;
    }
    while (to < mutation->size && mutation->bytes[to] != '\n') {
        to++;
    }
    return (struct span){from, to < mutation->size ? to + 1 : to};
}

/* Early lines are headers and what stands before them: half of all choices fall there. */
static size_t anywhere(struct mutation *mutation)
{
    size_t behind = mutation->size - 1;
    return 1 + mutation_below(mutation, mutation_once_in(mutation, 2) && behind > 300 ? 300 : behind);
}

static struct span line(struct mutation *mutation)
{
    return line_at(mutation, anywhere(mutation));
}

static int parts(uint8_t byte)
{
    return byte == '\n' || byte == '\r' || (byte != '\0' && strchr(SEPARATORS, byte) != NULL);
}

static struct span cell(struct mutation *mutation)
{
    size_t from = anywhere(mutation), to = from;
    while (from > 1 && !parts(mutation->bytes[from - 1])) {
        from--;
    }
    while (to < mutation->size && !parts(mutation->bytes[to])) {
        to++;
    }
    return (struct span){from, to};
}

static int copy_line(struct mutation *mutation)
{
    return mutation_copy(mutation, line(mutation), line(mutation).from);
}

static int drop_line(struct mutation *mutation)
{
    return mutation_splice(mutation, line(mutation), "", 0);
}

static int swap_lines(struct mutation *mutation)
{
    return mutation_swap(mutation, line(mutation), line(mutation));
}

static int add_line(struct mutation *mutation)
{
    size_t at = line(mutation).from;
    return mutation_splice_text(mutation, (struct span){at, at},
                                LINES[mutation_below(mutation, MUTATION_COUNT(LINES))]);
}

static int set_cell(struct mutation *mutation)
{
    return mutation_splice_text(mutation, cell(mutation), mutation_value(mutation));
}

static int set_head(struct mutation *mutation)
{
    return mutation_splice_text(mutation, cell(mutation), HEADS[mutation_below(mutation, MUTATION_COUNT(HEADS))]);
}

static int swap_cells(struct mutation *mutation)
{
    return mutation_swap(mutation, cell(mutation), cell(mutation));
}

static int add_cell(struct mutation *mutation)
{
    size_t at = cell(mutation).to;
    char separator[2] = {SEPARATORS[mutation_below(mutation, sizeof SEPARATORS - 1)], '\0'};
    return mutation_splice_text(mutation, (struct span){at, at}, mutation_value(mutation)) &&
           mutation_splice_text(mutation, (struct span){at, at}, separator);
}

/* All of one byte become another: separators, ends of lines, decimal points. */
static int exchange(struct mutation *mutation)
{
    static const char FROM[] = ",;\t|.\n:/-", TO[] = ";\t|,,\r:.;";
    size_t pair = mutation_below(mutation, sizeof FROM - 1), at = mutation_below(mutation, sizeof TO - 1);
    int done = 0;
    for (size_t i = 1; i < mutation->size; i++) {
        if (mutation->bytes[i] == (uint8_t)FROM[pair]) {
            mutation->bytes[i] = (uint8_t)TO[at];
            done = 1;
        }
    }
    return done;
}

static int set_options(struct mutation *mutation)
{
    mutation->bytes[0] = (uint8_t)mutation_below(mutation, 256);
    return 1;
}

typedef int (*mutate)(struct mutation *mutation);
static const mutate MUTATIONS[] = {copy_line, drop_line, swap_lines, add_line, set_cell, set_cell,   set_cell,
                                   set_head,  set_head,  swap_cells, add_cell, exchange, set_options};

size_t LLVMFuzzerCustomMutator(uint8_t *data, size_t size, size_t max, unsigned int seed)
{
    struct mutation mutation = {data, size, max, seed};
    int done = 0;
    if (mutation_once_in(&mutation, 4)) {
        return LLVMFuzzerMutate(data, size, max);
    }
    for (size_t tries = 1 + mutation_below(&mutation, 4); tries > 0; tries--) {
        done |= mutation.size > 1 && MUTATIONS[mutation_below(&mutation, MUTATION_COUNT(MUTATIONS))](&mutation);
    }
    return done ? mutation.size : LLVMFuzzerMutate(data, mutation.size, max);
}
