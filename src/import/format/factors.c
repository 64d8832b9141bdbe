/*
 * Reads a pair of gradient factors. Must not judge what they may be.
 * SPDX-License-Identifier: MIT
 */
#include "import/format/factors.h"

#include <string.h>

#include "base/number.h"

static bool number_read(const char *text, size_t n, double *value)
{
    while (n > 0 && text[n - 1] == ' ') {
        n--;
    }
    while (n > 0 && text[0] == ' ') {
        text++;
        n--;
    }
    return plmi_number_parse(text, n, '.', value);
}

bool plmi_factors_parse(const char *text, double *low_pct, double *high_pct)
{
    const char *slash = strchr(text, '/');
    double low, high;
    if (slash == NULL || !number_read(text, (size_t)(slash - text), &low) ||
        !number_read(slash + 1, strlen(slash + 1), &high)) {
        return false;
    }
    *low_pct = low;
    *high_pct = high;
    return true;
}
