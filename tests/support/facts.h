/*
 * Facts from outside the project, one a line, held against functions of the library:
 *   function argument... = expected +- tolerance | source
 * A line that begins with # is a comment. Must not be fed with our own output.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_SUPPORT_FACTS_H
#define PLM_SUPPORT_FACTS_H

#include <stddef.h>

#define FACT_ARGUMENTS 8

struct fact_function {
    const char *name;
    int arguments;
    double (*find)(const double *argument);
};

/*
 * Prints every line with what was found. A line that cannot be read, a function that no line uses, a
 * fact without a source and a file without facts are failures as a wrong figure is.
 * Returns: EXIT_SUCCESS or EXIT_FAILURE.
 */
int facts_check(const char *path, const struct fact_function *functions, size_t count);

#endif
