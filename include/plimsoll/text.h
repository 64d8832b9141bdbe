/*
 * Text of strangers on its way to a person: names, notes and file names as a terminal may show them.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_TEXT_H
#define PLM_TEXT_H

#include <stddef.h>

#include <plimsoll/api.h>

#ifdef __cplusplus
extern "C" {
#endif

/*
 * Writes text on one line so that it cannot steer a terminal, turn the direction of what stands beside it or forge a
 * line: control characters (tab and line ends among them), line and paragraph separators and the controls of
 * bidirectional text become \u{1b}, their code point in hexadecimal digits; bytes that are no UTF-8 become U+FFFD. All
 * else stays as it is.
 *   text    NULL counts as ""
 *   buffer  [size] cut to fit between characters, always terminated
 *   size    > 0
 * Returns: length that the whole would have.
 * Source:  The Unicode Standard, general categories Cc, Zl and Zp, property Bidi_Control.
 */
PLM_API size_t plm_text_plain(const char *text, char *buffer, size_t size);

#ifdef __cplusplus
}
#endif

#endif
