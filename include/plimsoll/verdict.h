/*
 * What an import understood of its input, with the evidence: shown before anybody trusts the dives.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_VERDICT_H
#define PLM_VERDICT_H

#include <stdbool.h>
#include <stddef.h>

#include <plimsoll/api.h>
#include <plimsoll/import.h>

#ifdef __cplusplus
extern "C" {
#endif

/* One thing found out about the whole input: what ("separator"), what was found ("semicolon"), and why. */
struct plm_verdict_fact {
    const char *what, *found, *evidence;
};

/* One column of a table. */
struct plm_verdict_column {
    size_t index;         /* [from 1] */
    const char *header;   /* as the table writes it, "" none */
    const char *meaning;  /* "depth", "not read", ... */
    const char *unit;     /* "" none */
    const char *evidence; /* why */
    bool read;            /* goes into the dive */
    bool guessed;         /* taken from the values, or from a name only partly understood */
};

/* Everything is owned by the import and lives as long as it does. */
struct plm_verdict {
    const char *format;  /* the reader's name */
    const char *summary; /* what that is, one line */
    const struct plm_verdict_fact *facts;
    size_t fact_count;
    const struct plm_verdict_column *columns; /* NULL unless a table */
    size_t column_count;
};

/* Never NULL once an import is open. */
PLM_API const struct plm_verdict *plm_import_verdict(const struct plm_import *import);

/* One format that is known. */
struct plm_format_info {
    const char *name, *summary;
    bool refused; /* known by sight, and not read */
};
/* The n-th of the formats there are, from 0; NULL behind the last. */
PLM_API const struct plm_format_info *plm_import_format_get(size_t n);

#ifdef __cplusplus
}
#endif

#endif
