/*
 * Writes the logs of an invented expedition from its description; the same bytes on every run.
 * A tool of the tests, no part of the library; invents people and places, never takes real ones.
 *
 *   generate DESCRIPTION FOLDER
 *
 * SPDX-License-Identifier: MIT
 */
#include <stdio.h>

#include "generate/expedition.h"

int main(int argc, char **argv)
{
    if (argc != 3) {
        fprintf(stderr, "usage: generate DESCRIPTION FOLDER\n");
        return 3;
    }
    struct gen_description description;
    struct gen_courses courses = {.count = 0};
    bool done = gen_description_read(&description, argv[1]) &&
                gen_courses_find(&courses, &description) &&
                gen_files_write(&description, &courses, argv[2]);
    gen_courses_free(&courses);
    gen_description_free(&description);
    return done ? 0 : 1;
}
