/*
 * Where bytes go: standard output, memory, or a file that appears only when it is whole.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_SINK_H
#define PLM_SINK_H

#include <stddef.h>

#include <plimsoll/api.h>
#include <plimsoll/diag.h>
#include <plimsoll/status.h>

#ifdef __cplusplus
extern "C" {
#endif

/* A sink for bytes. write returns OK or IO. */
struct plm_sink {
    enum plm_status (*write)(void *context, const void *bytes, size_t count);
    void *context;
};

struct plm_file_sink; /* opaque */

/*
 * A file beside its final name, moved there by _finish (fsync, rename; mode 0666 less umask, or that of the file
 * replaced); compressed where the path ends in .gz. "-" writes to standard output. A link to a file stays, and the file
 * is replaced where it lies; a link that leads nowhere is an error.
 * Errors: WRITE reported.
 */
PLM_API enum plm_status plm_file_sink_open(struct plm_file_sink **out, const char *path,
                                           const struct plm_diag_sink *diag);
/* The sink to write to; good until _finish or _free. */
PLM_API struct plm_sink plm_file_sink_get(struct plm_file_sink *file);
/*
 * The name of the file beside its own, under which it is written until it is whole; NULL where it is written to
 * directly. Good until _finish or _free. Who ends the program in between may remove it.
 */
PLM_API const char *plm_file_sink_part(const struct plm_file_sink *file);
/* Makes the file appear, frees. */
PLM_API enum plm_status plm_file_sink_finish(struct plm_file_sink *file);
/* Leaves nothing behind, frees. NULL is allowed. */
PLM_API void plm_file_sink_free(struct plm_file_sink *file);

#ifdef __cplusplus
}
#endif

#endif
