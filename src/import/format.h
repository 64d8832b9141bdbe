/*
 * One input format: a const row of the table in formats.c.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_IMPORT_FORMAT_H
#define PLM_IMPORT_FORMAT_H

#include <plimsoll/import.h>

#include "base/report.h"

struct plmi_reader;   /* each format's own */

struct plmi_format {
    const char *name;      /* as in `plimsoll formats`, kebab case, stable */
    const char *summary;   /* one line, no full stop */
    bool refused;          /* known and not read: open reports why */
    /* Bits of evidence in the first bytes, 0 for "not mine". head may be cut anywhere and may hold NULs. No allocation, no report. */
    int (*probe)(const unsigned char *head, size_t n);
    enum plm_status (*open)(struct plmi_reader **out, struct plm_source *source, const struct plm_import_options *options, struct plmi_report *report);
    enum plm_status (*next)(struct plmi_reader *reader, struct plm_dive **out);
    void (*free)(struct plmi_reader *reader);
};

const struct plmi_format *const *plmi_formats(size_t *count);

#endif
