/*
 * Diagnostics: what a person should know about the input, written as compilers do.
 * Never printed by the library: a sink of the caller's takes them.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_DIAG_H
#define PLM_DIAG_H

#include <stddef.h>

#include <plimsoll/api.h>

#ifdef __cplusplus
extern "C" {
#endif

enum plm_level { PLM_LEVEL_NOTE, PLM_LEVEL_WARNING, PLM_LEVEL_ERROR };

/* Kinds of diagnostics; their text ids stand in diag_ids.def. */
enum plm_diag_id {
#define PLM_DIAG(name, id, meaning) PLM_DIAG_##name,
#include <plimsoll/diag_ids.def>
#undef PLM_DIAG
    PLM_DIAG_COUNT
};

/* A place in an input. line and column count from 1; 0 means unknown. */
struct plm_place {
    const char *file; /* borrowed, as the caller named it; NULL unknown */
    long line;
    long column;
};

struct plm_diag {
    enum plm_level level;
    enum plm_diag_id id;
    struct plm_place place;
    const char *text; /* borrowed, valid during the call: what was wrong; what was done */
};

/* Takes diagnostics. report may be NULL: then they are dropped. */
struct plm_diag_sink {
    void (*report)(void *context, const struct plm_diag *diag);
    void *context;
};

/* The stable kebab-case word of a kind, as "time-order"; never NULL. */
PLM_API const char *plm_diag_id_text(enum plm_diag_id id);

/* "note", "warning" or "error". */
PLM_API const char *plm_level_text(enum plm_level level);

/*
 * Writes "file:line:col: level: text [id]" into buffer, cut to fit, always
 * terminated. Parts that are unknown are left out.
 *   size  bytes in buffer, > 0
 * Returns: length that the whole would have.
 */
PLM_API size_t plm_diag_format(const struct plm_diag *diag, char *buffer, size_t size);

#ifdef __cplusplus
}
#endif

#endif
