/*
 * Facts from outside the project, one a line, held against functions of the library.
 * Must not be fed with our own output.
 * SPDX-License-Identifier: MIT
 */
#include "support/facts.h"

#include <math.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/number.h"

struct fact {
    const struct fact_function *function;
    double argument[FACT_ARGUMENTS];
    double expected, tolerance;
    const char *source;
};

/* The next word of a line, ended in place; NULL at the end. */
static char *next_word(char **rest)
{
    char *word = *rest + strspn(*rest, " ");
    if (*word == '\0') {
        return NULL;
    }
    char *end = word + strcspn(word, " ");
    *rest = *end == '\0' ? end : end + 1;
    *end = '\0';
    return word;
}

static bool next_number(char **rest, double *value)
{
    const char *word = next_word(rest);
    return word != NULL && plmi_number_parse(word, strlen(word), '.', value);
}

static bool next_is(char **rest, const char *wanted)
{
    const char *word = next_word(rest);
    return word != NULL && strcmp(word, wanted) == 0;
}

static bool read_fact(char *line, struct fact *fact, const struct fact_function *functions, size_t count)
{
    char *bar = strchr(line, '|');
    const char *name;
    if (bar == NULL || (name = next_word(&line)) == NULL) {
        return false;
    }
    *bar = '\0';
    fact->source = bar + 1 + strspn(bar + 1, " ");
    fact->function = NULL;
    for (size_t i = 0; i < count; i++) {
        if (strcmp(functions[i].name, name) == 0) {
            fact->function = &functions[i];
        }
    }
    if (fact->function == NULL || strlen(fact->source) < 4) {
        return false;
    }
    for (int i = 0; i < fact->function->arguments; i++) {
        if (!next_number(&line, &fact->argument[i])) {
            return false;
        }
    }
    return next_is(&line, "=") && next_number(&line, &fact->expected) && next_is(&line, "+-") &&
           next_number(&line, &fact->tolerance) && next_word(&line) == NULL;
}

static bool check_fact(const struct fact *fact)
{
    double found = fact->function->find(fact->argument);
    bool right = fabs(found - fact->expected) <= fact->tolerance;
    printf("%s  %-24s", right ? "right" : "WRONG", fact->function->name);
    for (int i = 0; i < fact->function->arguments; i++) {
        printf(" %g", fact->argument[i]);
    }
    printf(" = %.10g, expected %.10g +- %g: %s\n", found, fact->expected, fact->tolerance, fact->source);
    return right;
}

/* Every function has to be used by a fact. */
static int count_unused(const struct fact_function *functions, size_t count, const bool *used)
{
    int unused = 0;
    for (size_t i = 0; i < count; i++) {
        if (!used[i]) {
            printf("WRONG  no fact uses %s\n", functions[i].name);
            unused++;
        }
    }
    return unused;
}

int facts_check(const char *path, const struct fact_function *functions, size_t count)
{
    FILE *file = fopen(path, "r");
    bool *used = calloc(count, sizeof *used);
    char line[512];
    int wrong = 0, facts = 0;
    if (file == NULL || used == NULL) {
        printf("WRONG  cannot read %s\n", path);
        wrong++;
    }
    while (file != NULL && used != NULL && fgets(line, sizeof line, file) != NULL) {
        struct fact fact;
        line[strcspn(line, "\n")] = '\0';
        if (line[0] == '\0' || line[0] == '#') {
            continue;
        }
        facts++;
        char kept[sizeof line];
        memcpy(kept, line, sizeof line);
        if (!read_fact(line, &fact, functions, count)) {
            printf("WRONG  not a fact: %s\n", kept);
            wrong++;
            continue;
        }
        used[fact.function - functions] = true;
        wrong += check_fact(&fact) ? 0 : 1;
    }
    wrong += used != NULL ? count_unused(functions, count, used) : 0;
    printf("%d facts, %d wrong\n", facts, wrong);
    free(used);
    if (file != NULL) {
        fclose(file);
    }
    return facts > 0 && wrong == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
