/*
 * Characters that may not reach a terminal, and what is shown in their place.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_BASE_PLAIN_H
#define PLM_BASE_PLAIN_H

#include "base/text.h"

enum { PLMI_SHOWN_BYTES = 16 };

/* Whether a code point steers and does not show: Cc, Zl, Zp, Bidi_Control. */
bool plmi_steers(unsigned long code);
/* Bytes from s that may be shown as they are; the next, if any, may not. */
size_t plmi_plain_length(const char *s, size_t n);
/* What is shown for the character at s (n > 0 bytes left), which may not be: \u{hex}, or U+FFFD. Returns: bytes taken.
 */
size_t plmi_plain_shown(const char *s, size_t n, char shown[PLMI_SHOWN_BYTES]);
/* Code point of the valid sequence of `length` bytes at s. */
unsigned long plmi_utf8_code(const char *s, size_t length);
/* Appends bytes[n] as they may be shown, on one line. */
void plmi_text_add_plain(struct plmi_text *text, const char *bytes, size_t n);
/*
 * The same so that it can be taken back: a back slash before "u{" is escaped too, as are the characters of `also`
 * (ASCII). Bytes that are no UTF-8 become U+FFFD for good.
 */
void plmi_text_add_reversible(struct plmi_text *text, const char *bytes, size_t n, const char *also);
/*
 * Takes such escapes back in s[n], in place; other text stays. What no text holds (XML 1.0, 2.2: control characters but
 * for tab and line ends) stays escaped.
 * Returns: bytes left, at most n.
 */
size_t plmi_escapes_read(char *s, size_t n);

#endif
