/*
 * From a description to its files.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_GENERATE_EXPEDITION_H
#define PLM_GENERATE_EXPEDITION_H

#include "base/text.h"
#include "generate/course.h"

/* The courses of all dives of a description, each diver carrying what the dives before left. */
struct gen_courses {
    struct gen_course *as_dived, *as_planned;
    size_t count;
};

bool gen_courses_find(struct gen_courses *out, const struct gen_description *description);
void gen_courses_free(struct gen_courses *courses);

/* Writes every file of the description below a folder; says on stderr what fails. */
bool gen_files_write(const struct gen_description *description, const struct gen_courses *courses, const char *folder);
/* Writes text to folder/name. */
bool gen_file_write(const struct plmi_text *text, const char *folder, const char *name);

#endif
