/*
 * The elements of UDDF 2.x and 3.x that are read, by local name.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_IMPORT_UDDF_ELEMENTS_H
#define PLM_IMPORT_UDDF_ELEMENTS_H

#include <stddef.h>

enum plmi_uddf_element {
    PLMI_UDDF_OTHER,
#define PLMI_UDDF_ELEMENT(name) PLMI_UDDF_##name,
#include "import/uddf/elements.def"
#undef PLMI_UDDF_ELEMENT
    PLMI_UDDF_COUNT
};

/* Where names are found by their length and letters: filled once, then only read. */
struct plmi_uddf_names {
    unsigned char slots[512];
}; /* enum plmi_uddf_element */
void plmi_uddf_names_init(struct plmi_uddf_names *names);
/* The element of this local name, OTHER where it is none of the table. */
enum plmi_uddf_element plmi_uddf_element(const struct plmi_uddf_names *names, const char *name);
/* Its name; "" for OTHER. */
const char *plmi_uddf_element_name(enum plmi_uddf_element element);

#endif
