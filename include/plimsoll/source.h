/*
 * Where bytes come from: a file, memory, standard input, or the caller's own.
 * Gzip is known by its bytes and opened on the way. Pulled, never pushed.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_SOURCE_H
#define PLM_SOURCE_H

#include <stddef.h>

#include <plimsoll/api.h>
#include <plimsoll/diag.h>
#include <plimsoll/rules.h>
#include <plimsoll/status.h>

#ifdef __cplusplus
extern "C" {
#endif

struct plm_source; /* opaque; owns its file or spooled bytes */

/*
 * Opens a file by path; "-" is standard input (spooled into memory, within rules->file_max_mb).
 *   name   as diagnostics and reports name it; NULL: the path
 * Errors: FILE_MISSING, FILE_KIND (a directory, a socket; a FIFO is spooled), MEMORY, LIMIT.
 * Owns:   the caller frees *out; rules are copied; sink must outlive the source.
 */
PLM_API enum plm_status plm_source_open_file(struct plm_source **out, const char *path, const char *name,
                                             const struct plm_rules *rules, const struct plm_diag_sink *sink);
/*
 * A regular file alone, through links; for what a stranger may have put beside a log. Nothing is waited for, and "-" is
 * refused.
 * Errors: as above; FILE_KIND for a pipe and standard input too.
 */
PLM_API enum plm_status plm_source_open_regular(struct plm_source **out, const char *path,
                                                const struct plm_rules *rules, const struct plm_diag_sink *sink);
/* Bytes in memory, borrowed until the source is freed. */
PLM_API enum plm_status plm_source_open_memory(struct plm_source **out, const void *bytes, size_t count,
                                               const char *name, const struct plm_rules *rules,
                                               const struct plm_diag_sink *sink);
/*
 * Next plain (inflated) bytes.
 *   got [out] bytes put into buffer, 1..capacity; 0 only with a status other than OK
 * Returns: OK, END at the end, or IO, INPUT (damaged gzip), LIMIT, each reported.
 */
PLM_API enum plm_status plm_source_read(struct plm_source *source, void *buffer, size_t capacity, size_t *got);
/* Looks ahead: at most 65536 plain bytes at the start, without taking them. Valid until the next call. */
PLM_API enum plm_status plm_source_peek(struct plm_source *source, const unsigned char **bytes, size_t *count);
/* Back to the first byte, for a second pass. */
PLM_API enum plm_status plm_source_rewind(struct plm_source *source);
/* The name as diagnostics have it; lives as long as the source. */
PLM_API const char *plm_source_name(const struct plm_source *source);
/* SHA-256 over the raw bytes as stored (compressed where they are), 64 hex digits. Reads what was not read yet, then
 * rewinds. */
PLM_API enum plm_status plm_source_sha256(struct plm_source *source, char hex[65]);
/* All raw bytes as stored, on the heap: the caller frees them with free(). Reads them anew, then rewinds. Returns: OK,
 * IO, LIMIT, MEMORY reported. */
PLM_API enum plm_status plm_source_bytes(struct plm_source *source, void **bytes, size_t *count);
/* NULL is allowed. */
PLM_API void plm_source_free(struct plm_source *source);

#ifdef __cplusplus
}
#endif

#endif
