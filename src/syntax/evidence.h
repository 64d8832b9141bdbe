/*
 * Which encoding the first bytes of a text speak for. Looks only, decodes nothing.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_SYNTAX_EVIDENCE_H
#define PLM_SYNTAX_EVIDENCE_H

#include <stdbool.h>
#include <stddef.h>

enum { PLMI_ENCODING_NAME_BYTES = 40 };

struct plmi_encoding {
    const char *name;  /* static, as iconv knows it; NULL: nothing found */
    size_t unit_bytes; /* of one code unit                               */
    size_t mark_bytes; /* of the byte order mark to pass over            */
};

/* By a byte order mark, else UTF-16 by where zero bytes stand among at least 4 bytes. */
struct plmi_encoding plmi_encoding_find(const unsigned char *bytes, size_t count);

/*
 * The encoding that an XML declaration at the start names, in letters, digits and "-._:" only.
 * Returns: false where there is none.
 */
bool plmi_encoding_declared(const unsigned char *bytes, size_t count, char name[PLMI_ENCODING_NAME_BYTES]);

#endif
