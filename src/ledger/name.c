/*
 * A dive of the ledger in words.
 * SPDX-License-Identifier: MIT
 */
#include <stdio.h>

#include <plimsoll/ledger.h>
#include <plimsoll/stamp.h>

char *plm_exposure_name(const struct plm_exposure *exposure, char *buffer, size_t size)
{
    char start[40];
    struct plm_stamp stamp = plm_stamp_of(exposure->span.start_utc_ms, exposure->span.offset_min);
    (void)snprintf(buffer, size, "dive %d of %s, %s", exposure->log_index, exposure->log_name,
                   plm_stamp_write(&stamp, start, sizeof start));
    return buffer;
}
