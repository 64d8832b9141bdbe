/*
 * Escaping for HTML, SVG and XML, and cells for CSV. Written only.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_SYNTAX_MARKUP_H
#define PLM_SYNTAX_MARKUP_H

#include "base/text.h"

/*
 * Text content and attribute values of HTML and SVG: & < > " ' escaped; what steers and does not show, but for tabs and
 * line feeds, is shown as \u{202e} (base/plain.h); invalid UTF-8 replaced by U+FFFD.
 */
void plmi_markup_text(struct plmi_text *out, const char *text);
/* The same for XML that is read back: what steers stands as &#x202e;; what XML cannot hold is dropped (XML 1.0, 2.2).
 */
void plmi_xml_text(struct plmi_text *out, const char *text);
/* " name=\"escaped\"" */
void plmi_markup_attribute(struct plmi_text *out, const char *name, const char *value);
/*
 * A CSV cell of text, quoted where needed (RFC 4180), on one line. - What steers and does not show is written \u{202e}
 * (base/plain.h), a back slash before "u{" as \u{5c}; invalid UTF-8 is replaced. - An apostrophe leads what a
 * spreadsheet would compute: text that begins with = + - @ or their full-width forms, behind any apostrophes.
 * plmi_csv_cell_read takes both back. Source: OWASP, "CSV Injection"; the full-width forms are from memory. Tab and CR,
 * which it names too, are escaped wherever they stand.
 */
void plmi_csv_cell(struct plmi_text *out, const char *text);
/*
 * What plmi_csv_cell made of a text back into it, in place; other cells stay as they are.
 *   cell [count] need not be terminated
 * Returns: bytes left, at most count. Control bytes that no text holds (XML 1.0, 2.2) stay escaped.
 */
size_t plmi_csv_cell_read(char *cell, size_t count);

#endif
