/*
 * From bytes to dives, one by one, for <plimsoll/log.h>. Formats are found by evidence, never by a name's ending.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_IMPORT_H
#define PLM_IMPORT_H

#include <plimsoll/diag.h>
#include <plimsoll/dive.h>
#include <plimsoll/rules.h>
#include <plimsoll/source.h>

#ifdef __cplusplus
extern "C" {
#endif

struct plm_import; /* opaque: an open source being read */
struct plm_card;

/* What the caller tells about the input. Zeroed: nothing. Strings are borrowed while the import lives. */
struct plm_import_options {
    const struct plm_rules *rules; /* never NULL */
    const char *columns;           /* --columns time_s,depth_m,... or NULL */
    double interval_s;             /* --interval; 0: none */
    const char *date_order;        /* "dmy", "mdy", "ymd" or NULL */
    bool zero_auto;                /* --zero auto */
    const struct plm_card *card;   /* whose mixes a log takes that names mixes and defines none; NULL: none */
};

/* source stays the caller's and must outlive the import. */
PLM_API enum plm_status plm_import_open(struct plm_import **out, struct plm_source *source,
                                        const struct plm_import_options *options, const struct plm_diag_sink *sink);
/*
 * The next dive, as the input has it; plm_log_next lays over it what is reported beside, and tells what nobody says.
 * Only what one dive needs is held. Returns: OK with *out (the caller frees), END, or an error that is reported; after
 * an error the import is over.
 */
PLM_API enum plm_status plm_import_next(struct plm_import *import, struct plm_dive **out);
/* Dives of the source so far, those that could not be read counted as well: after END all that it holds. The index of a
 * dive is its place among them. */
PLM_API int plm_import_dives(const struct plm_import *import);
/* Whether a diagnostic of reading says that something of the input is not in the dives: an error, or a warning of such
 * a kind. For those who choose what to show; plm_import_partial does not go by what was reported. */
PLM_API bool plm_import_loses(const struct plm_diag *diag);
/* Whether something of the input read so far is not in the dives. */
PLM_API bool plm_import_partial(const struct plm_import *import);
/* Name of the format that the evidence chose, as in `plimsoll formats`; static. */
PLM_API const char *plm_import_format(const struct plm_import *import);
/* NULL is allowed. Dives that were given stay the caller's. */
PLM_API void plm_import_free(struct plm_import *import);

#ifdef __cplusplus
}
#endif

#endif
