/*
 * Gzip opened on the way, member by member, within bounds set by rule.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_IO_INFLATE_H
#define PLM_IO_INFLATE_H

#include <plimsoll/rules.h>

#include "io/raw.h"

struct plmi_inflate; /* opaque */

/* rules: file_max_mb and inflate_ratio_max. Errors: MEMORY. raw is borrowed. */
enum plm_status plmi_inflate_open(struct plmi_inflate **out, struct plmi_raw *raw, const struct plm_rules *rules);
/* OK with 1..capacity bytes, END, or INPUT, LIMIT, IO, MEMORY, reported. */
enum plm_status plmi_inflate_read(struct plmi_inflate *inflate, void *buffer, size_t capacity, size_t *got);
/* For a pass from the start, after raw was rewound. */
void plmi_inflate_reset(struct plmi_inflate *inflate);
void plmi_inflate_free(struct plmi_inflate *inflate);

#endif
