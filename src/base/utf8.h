/*
 * UTF-8: where a sequence is well formed, and what it encodes.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_BASE_UTF8_H
#define PLM_BASE_UTF8_H

#include <stddef.h>

/* Length of the valid UTF-8 sequence at s (n bytes left), 0 where none stands. */
size_t plmi_utf8_length(const char *s, size_t n);
/* Code point of the valid sequence of `length` bytes at s. */
unsigned long plmi_utf8_code(const char *s, size_t length);

#endif
