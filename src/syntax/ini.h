/*
 * INI text as entries, each with its line (inih inside). Knows no meaning of a key.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_SYNTAX_INI_H
#define PLM_SYNTAX_INI_H

#include <plimsoll/source.h>

#include "base/diags.h"

struct plmi_ini_entry {
    const char *section, *key, *value;
    long line;
}; /* borrowed for the call */

/*
 * The text is decoded as a table is (decode.h): UTF-8, UTF-16 by its mark, else Windows-1252; what is no text is
 * replaced and reported. Hands over each "key = value" with its section ("" before the first). Comments begin with ; or
 * #. A value goes on over indented lines: each comes as an entry of its own with the same key. Returns: OK; INPUT where
 * lines are no INI (each reported, id as given, the others still handed over), LIMIT for a line, name or section that
 * is too long and for more than 1 MB; IO. All reported.
 */
enum plm_status plmi_ini_read(struct plm_source *source, enum plm_diag_id id,
                              void (*take)(void *context, const struct plmi_ini_entry *entry), void *context,
                              struct plmi_diags *diags);

#endif
