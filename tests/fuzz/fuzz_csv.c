/*
 * Fuzzes tables as logs: sniffing, headers, units, times, splitting into dives.
 * The first byte of an input chooses options. Must not fail without a diagnostic.
 * SPDX-License-Identifier: MIT
 */
#include <stdint.h>

#include "fuzz/import_uses.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static const char *const ORDERS[] = {NULL, "dmy", "mdy", "ymd"};
    struct plm_rules rules = plm_rules_default();
    struct plm_import_options options = {.rules = &rules};
    if (size == 0) {
        return 0;
    }
    rules.file_max_mb = 2;
    rules.cell_max_bytes = 2000;
    rules.dives_max = 50;
    options.zero_auto = (data[0] & 1) != 0;
    options.interval_s = (data[0] & 2) != 0 ? 10 : 0;
    options.columns = (data[0] & 4) != 0 ? "time_s,depth_m" : NULL;
    options.date_order = ORDERS[(data[0] >> 3) & 3];
    import_use(data + 1, size - 1, &options);
    return 0;
}
