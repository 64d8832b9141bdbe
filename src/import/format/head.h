/*
 * A look at the first bytes of an input: what kind of thing they are.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_IMPORT_FORMAT_HEAD_H
#define PLM_IMPORT_FORMAT_HEAD_H

#include <stdbool.h>
#include <stddef.h>

/* The start of an input as plain characters: NULs of UTF-16 and a BOM taken away; bytes above 127 kept. */
struct plmi_head {
    char text[4096 + 1];
    size_t count;
    bool binary;
};
void plmi_head_read(struct plmi_head *head, const unsigned char *bytes, size_t n);

/*
 * The local name of the root element, and whether it has an attribute.
 *   name [out] at least 64 bytes; "" where this is not XML
 */
void plmi_head_root(const struct plmi_head *head, char name[64], const char *attribute, bool *has_attribute);

/* What a person would call these bytes, for messages: "a PDF document"; never NULL. */
const char *plmi_head_kind(const unsigned char *bytes, size_t n);

#endif
