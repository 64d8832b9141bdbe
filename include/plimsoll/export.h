/*
 * Dives written as logs again: what was read and understood, in an open format, so that reading it gives the same dive.
 * Nothing is computed, smoothed or left out in silence.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_EXPORT_H
#define PLM_EXPORT_H

#include <stdbool.h>
#include <stddef.h>

#include <plimsoll/dive.h>
#include <plimsoll/sink.h>

#ifdef __cplusplus
extern "C" {
#endif

struct plm_export; /* opaque: a log being written */

/* One line of the table of formats. */
struct plm_export_format {
    const char *name;    /* as --to names it: "uddf", "csv"                  */
    const char *summary; /* one line without a full stop                     */
    bool one_dive;       /* holds one dive and no more                       */
};

/* The table. */
PLM_API size_t plm_export_format_count(void);
/* Static; NULL beyond the end. */
PLM_API const struct plm_export_format *plm_export_format_get(size_t index);
/* The line of this name; NULL where there is none. */
PLM_API const struct plm_export_format *plm_export_format_find(const char *name);

/*
 * Opens a log. Nothing is written before _finish, as definitions stand before the dives that they are for: what is
 * held is the text of all dives added.
 *   format  a name of the table
 *   sink    borrowed while the export lives
 * Returns: OK; ARGUMENT (no such format, reported), MEMORY (reported).
 */
PLM_API enum plm_status plm_export_open(struct plm_export **out, const char *format, const struct plm_sink *sink,
                                        const struct plm_diag_sink *diag);
/*
 * Adds a dive. What the format has no place for is reported as a note [left-out].
 * Returns: OK; ARGUMENT (a second dive for a format that holds one, reported), MEMORY (reported).
 */
PLM_API enum plm_status plm_export_add(struct plm_export *log, const struct plm_dive *dive);
/* Writes the log. Returns: OK, ARGUMENT (no dive was added, reported), MEMORY, IO. The caller still frees. */
PLM_API enum plm_status plm_export_finish(struct plm_export *log);
/* NULL is allowed. */
PLM_API void plm_export_free(struct plm_export *log);

#ifdef __cplusplus
}
#endif

#endif
