/*
 * One input format: a const row of the table in formats.c.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_IMPORT_FORMAT_FORMAT_H
#define PLM_IMPORT_FORMAT_FORMAT_H

#include <plimsoll/import.h>
#include <plimsoll/verdict.h>

#include "base/diags.h"

struct plmi_reader; /* each format's own */

struct plmi_format {
    /* name: as in `plimsoll formats`, kebab case, stable; summary: one line, no full stop */
    struct plm_format_info info;
    const char *refusal; /* refused formats: what to do instead */
    /* Bits of evidence in the first bytes, 0 for "not mine". head may be cut anywhere and may hold NULs. No allocation,
     * no report. */
    int (*probe)(const unsigned char *head, size_t n);
    enum plm_status (*open)(struct plmi_reader **out, struct plm_source *source,
                            const struct plm_import_options *options, struct plmi_diags *diags);
    enum plm_status (*next)(struct plmi_reader *reader, struct plm_dive **out);
    /* Dives that were begun so far, those that were not read counted: the highest index. */
    int (*dives)(const struct plmi_reader *reader);
    /* Whether something of what was read so far is not in the dives; each such thing was reported. */
    bool (*partial)(const struct plmi_reader *reader);
    /* What was understood: facts, columns. */
    const struct plm_verdict *(*verdict)(const struct plmi_reader *reader);
    void (*free)(struct plmi_reader *reader);
};

#endif
