/*
 * Fuzzes UDDF as a log. Must not fail without a diagnostic.
 * SPDX-License-Identifier: MIT
 */
#include <stdint.h>

#include "fuzz/import_uses.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct plm_rules rules = plm_rules_default();
    struct plm_import_options options = {.rules = &rules};
    rules.file_max_mb = 2;
    rules.cell_max_bytes = 2000;
    rules.dives_max = 50;
    import_use(data, size, &options);
    return 0;
}
