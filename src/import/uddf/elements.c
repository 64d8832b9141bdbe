/*
 * Names of UDDF elements. Must not know what they mean.
 * SPDX-License-Identifier: MIT
 */
#include "import/uddf/elements.h"

#include <string.h>

static const char *const NAMES[PLMI_UDDF_COUNT] = {
    [PLMI_UDDF_OTHER] = "",
#define PLMI_UDDF_ELEMENT(name) [PLMI_UDDF_##name] = #name,
#include "import/uddf/elements.def"
#undef PLMI_UDDF_ELEMENT
};

static size_t slot_of(const char *name)
{
    size_t n = strlen(name);
    size_t last = n > 0 ? (unsigned char)name[n - 1] : 0;
    size_t middle = (unsigned char)name[n / 2];
    return ((unsigned char)name[0] * 37U + middle * 11U + last * 5U + n) % 512;
}

void plmi_uddf_names_init(struct plmi_uddf_names *names)
{
    memset(names->slots, PLMI_UDDF_OTHER, sizeof names->slots);
    for (size_t i = PLMI_UDDF_OTHER + 1; i < PLMI_UDDF_COUNT; i++) {
        size_t slot = slot_of(NAMES[i]);
        while (names->slots[slot] != PLMI_UDDF_OTHER) {
            slot = (slot + 1) % sizeof names->slots;
        }
        names->slots[slot] = (unsigned char)i;
    }
}

enum plmi_uddf_element plmi_uddf_element(const struct plmi_uddf_names *names, const char *name)
{
    for (size_t slot = slot_of(name); names->slots[slot] != PLMI_UDDF_OTHER; slot = (slot + 1) % sizeof names->slots) {
        if (strcmp(NAMES[names->slots[slot]], name) == 0) {
            return (enum plmi_uddf_element)names->slots[slot];
        }
    }
    return PLMI_UDDF_OTHER;
}

const char *plmi_uddf_element_name(enum plmi_uddf_element element)
{
    return NAMES[element];
}
