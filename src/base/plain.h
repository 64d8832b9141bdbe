/*
 * Characters that may not reach a terminal, and what is shown in their place.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_BASE_PLAIN_H
#define PLM_BASE_PLAIN_H

#include <stdbool.h>
#include <stddef.h>

enum { PLMI_SHOWN_BYTES = 16 };

/* Whether a code point steers and does not show: Cc, Zl, Zp, Bidi_Control. */
bool plmi_steers(unsigned long code);
/* Bytes from s that may be shown as they are; the next, if any, may not. */
size_t plmi_plain_length(const char *s, size_t n);
/* What is shown for the character at s (n > 0 bytes left), which may not be: \u{hex}, or U+FFFD. Returns: bytes taken.
 */
size_t plmi_plain_shown(const char *s, size_t n, char shown[PLMI_SHOWN_BYTES]);
/*
 * Takes back in s[n], in place, the escapes that plmi_text_add_reversible (text.h) writes; other text stays. What no
 * text holds (XML 1.0, 2.2: control characters but for tab and line ends) stays escaped.
 * Returns: bytes left, at most n.
 */
size_t plmi_escapes_read(char *s, size_t n);

#endif
