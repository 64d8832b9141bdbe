/*
 * A moment as a recorder wrote it: local time, and the zone where it is known.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_STAMP_H
#define PLM_STAMP_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include <plimsoll/api.h>

#ifdef __cplusplus
extern "C" {
#endif

struct plm_stamp {
    int64_t local_ms; /* [ms] local wall clock since 1970-01-01T00:00:00 local */
    int offset_min;   /* [min] local minus UTC, -1080..1080; 0 unless has_zone */
    bool known;       /* false: nothing is known, other fields are zero        */
    bool has_zone;
    bool has_clock; /* false: only the date is known                         */
};

/* Reads a moment as ISO 8601 writes it, "2031-05-06T09:30+10:00" or a shorter form. Returns: false for anything else.
 */
PLM_API bool plm_stamp_parse(const char *text, struct plm_stamp *stamp);
/* "2031-05-06T09:30:00+10:00", parts that are unknown left out, cut to size bytes; "" when unknown. Returns: buffer. */
PLM_API char *plm_stamp_write(const struct plm_stamp *stamp, char *buffer, size_t size);
/* Reads an offset from UTC as "+10:00", "-0330" or "Z". Returns: false for anything else. */
PLM_API bool plm_zone_parse(const char *text, int *offset_min);
/* [ms] the moment in UTC of a stamp that has a clock and a zone; without a zone as if local time were UTC. */
PLM_API int64_t plm_stamp_utc_ms(const struct plm_stamp *stamp);
/* The stamp of a moment in a zone. */
PLM_API struct plm_stamp plm_stamp_of(int64_t utc_ms, int offset_min);

#ifdef __cplusplus
}
#endif

#endif
