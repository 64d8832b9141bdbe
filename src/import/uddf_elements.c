/*
 * Names of UDDF elements. Must not know what they mean.
 * SPDX-License-Identifier: MIT
 */
#include "import/uddf_elements.h"

#include <string.h>

static const char *const NAMES[PLMI_UDDF_COUNT] = {
    [PLMI_UDDF_OTHER] = "",
#define PLMI_UDDF_ELEMENT(name) [PLMI_UDDF_##name] = #name,
#include "import/uddf_elements.def"
#undef PLMI_UDDF_ELEMENT
};

enum plmi_uddf_element plmi_uddf_element(const char *name)
{
    size_t low = PLMI_UDDF_OTHER + 1;
    size_t high = PLMI_UDDF_COUNT;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        int order = strcmp(name, NAMES[middle]);
        if (order == 0) {
            return (enum plmi_uddf_element)middle;
        }
        if (order < 0) {
            high = middle;
        } else {
            low = middle + 1;
        }
    }
    return PLMI_UDDF_OTHER;
}

const char *plmi_uddf_element_name(enum plmi_uddf_element element)
{
    return NAMES[element];
}
