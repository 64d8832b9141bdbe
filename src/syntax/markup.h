/*
 * Escaping for HTML, SVG and XML, and cells for CSV. Written only.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_SYNTAX_MARKUP_H
#define PLM_SYNTAX_MARKUP_H

#include "base/text.h"

/* Text content and attribute values: & < > " ' escaped, control bytes dropped, invalid UTF-8 replaced by U+FFFD. */
void plmi_markup_text(struct plmi_text *out, const char *text);
/* " name=\"escaped\"" */
void plmi_markup_attribute(struct plmi_text *out, const char *name, const char *value);
/* A CSV cell, quoted where needed (RFC 4180). */
void plmi_csv_cell(struct plmi_text *out, const char *text);

#endif
