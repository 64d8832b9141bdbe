/*
 * The files below some paths that can be logs: folders are walked, cards and the plans that they name are left out.
 * Opens no log.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_LOG_FILES_H
#define PLM_LOG_FILES_H

#include <stdbool.h>
#include <stddef.h>

#include <plimsoll/api.h>
#include <plimsoll/diag.h>
#include <plimsoll/rules.h>
#include <plimsoll/status.h>

#ifdef __cplusplus
extern "C" {
#endif

struct plm_log_files; /* opaque, immutable */

/* One file. named: it was given itself, and not found in a folder: that it is no log is then an error. */
struct plm_log_file {
    const char *path;
    bool named;
};

/*
 * Walks the paths in their order, folders in the order of names; links to folders are not followed. "-" stays as it is.
 * Returns: OK and *out (the caller frees); IO (reported) and *out where a path cannot be read; MEMORY.
 */
PLM_API enum plm_status plm_log_files_find(struct plm_log_files **out, const char *const *paths, size_t count,
                                           const struct plm_rules *rules, const struct plm_diag_sink *sink);
/* All of them; *count can be 0. */
PLM_API const struct plm_log_file *plm_log_files_get(const struct plm_log_files *files, size_t *count);
/* The cards found below folders and the plans that they name, there or elsewhere; *count can be 0. */
PLM_API const char *const *plm_log_files_companions(const struct plm_log_files *files, size_t *count);
/* Whether an error of this kind says of a file, where nothing else was found in it, that it is no log at all. */
PLM_API bool plm_log_files_refusal(enum plm_diag_id id);
/* NULL is allowed. */
PLM_API void plm_log_files_free(struct plm_log_files *files);

#ifdef __cplusplus
}
#endif

#endif
