/*
 * Fuzzes reading of dates, clock times and zones: what is written of a stamp reads back the same.
 * Must not take what ISO 8601 does not know.
 * SPDX-License-Identifier: MIT
 */
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "base/clock.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void check_stamp(const struct plm_stamp *stamp)
{
    struct plm_stamp again = {0};
    struct plmi_text written;
    plmi_text_init(&written);
    plmi_clock_write(&written, stamp);
    if (!plmi_clock_parse(written.bytes, written.count, &again) || again.local_ms != stamp->local_ms ||
        again.offset_min != stamp->offset_min || again.has_zone != stamp->has_zone ||
        again.has_clock != stamp->has_clock) {
        abort();
    }
    plmi_text_free(&written);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    char *text = malloc(size + 1);
    if (text == NULL) {
        return 0;
    }
    if (size > 0) {
        memcpy(text, data, size);
    }
    text[size] = '\0';
    struct plm_stamp stamp;
    int offset_min = 0;
    if (plmi_clock_parse(text, size, &stamp)) {
        check_stamp(&stamp);
    }
    if (plmi_clock_zone_parse(text, &offset_min) && (offset_min > 1080 || offset_min < -1080)) {
        abort();
    }
    free(text);
    return 0;
}
