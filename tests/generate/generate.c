/*
 * Writes the logs of an invented expedition from its description, heaps of dives, or a field of dives with their truth;
 * the same bytes on every run.
 * A tool of the tests, no part of the library; invents people and places, never takes real ones.
 *
 *   generate DESCRIPTION FOLDER
 *   generate --many N [--divers N] [--seed N] [--interval S] [--out FOLDER] [--one FILE]
 *   generate --field N [--faulty N] [--seed N] --out FOLDER
 *
 * SPDX-License-Identifier: MIT
 */
#include <stdio.h>
#include <string.h>

#include "base/number.h"
#include "generate/expedition.h"
#include "generate/field.h"
#include "generate/many.h"

static int usage(void)
{
    fprintf(stderr, "usage: generate DESCRIPTION FOLDER\n"
                    "       generate --many N [--divers N] [--seed N] [--interval S] [--out FOLDER] "
                    "[--one FILE]\n"
                    "       generate --field N [--faulty N] [--seed N] --out FOLDER\n");
    return 3;
}

static bool write_expedition(const char *path, const char *folder)
{
    struct gen_description description;
    struct gen_courses courses = {.count = 0};
    bool done = gen_description_read(&description, path) && gen_courses_find(&courses, &description) &&
                gen_files_write(&description, &courses, folder);
    gen_courses_free(&courses);
    gen_description_free(&description);
    return done;
}

/* Returns: false where a word is not understood. */
static bool many_parse(struct gen_many *many, int argc, char **argv)
{
    for (int i = 1; i + 1 < argc; i += 2) {
        const char *word = argv[i], *value = argv[i + 1];
        int64_t number = 0;
        bool is_number = plmi_integer_parse(value, strlen(value), &number);
        if (strcmp(word, "--out") == 0) {
            many->folder = value;
        } else if (strcmp(word, "--one") == 0) {
            many->file = value;
        } else if (strcmp(word, "--seed") == 0 && is_number) {
            many->seed = (uint64_t)number;
        } else if (strcmp(word, "--interval") == 0 && number > 0 && number <= 60) {
            many->interval_s = (double)number;
        } else if (strcmp(word, "--many") == 0 && number > 0 && number <= 1000000) {
            many->dives = (int)number;
        } else if (strcmp(word, "--divers") == 0 && number > 0 && number <= 999) {
            many->divers = (int)number;
        } else {
            return false;
        }
    }
    return argc % 2 == 1 && many->dives > 0;
}

/* Returns: false where a word is not understood. */
static bool field_parse(struct gen_field *field, int argc, char **argv)
{
    for (int i = 1; i + 1 < argc; i += 2) {
        const char *word = argv[i], *value = argv[i + 1];
        int64_t number = 0;
        bool is_number = plmi_integer_parse(value, strlen(value), &number) && number >= 0;
        if (strcmp(word, "--out") == 0) {
            field->folder = value;
        } else if (strcmp(word, "--seed") == 0 && is_number) {
            field->seed = (uint64_t)number;
        } else if (strcmp(word, "--field") == 0 && is_number && number <= 999) {
            field->clean = (int)number;
        } else if (strcmp(word, "--faulty") == 0 && is_number && number <= 999) {
            field->faulty = (int)number;
        } else {
            return false;
        }
    }
    return argc % 2 == 1 && field->folder != NULL && field->clean + field->faulty > 0;
}

int main(int argc, char **argv)
{
    struct gen_many many = {.divers = 1, .seed = 1, .interval_s = 10};
    if (argc == 3 && argv[1][0] != '-') {
        return write_expedition(argv[1], argv[2]) ? 0 : 1;
    }
    struct gen_field field = {.seed = 1};
    if (argc > 1 && strcmp(argv[1], "--field") == 0) {
        return !field_parse(&field, argc, argv) ? usage() : gen_field_write(&field) ? 0 : 1;
    }
    if (!many_parse(&many, argc, argv)) {
        return usage();
    }
    return gen_many_write(&many) ? 0 : 1;
}
