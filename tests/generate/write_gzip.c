/*
 * gzip of a text. Must not write a name or a date into it.
 * SPDX-License-Identifier: MIT
 */
#include <stdlib.h>
#include <zlib.h>

#include "generate/writers.h"

bool gen_gzip(struct plmi_text *text)
{
    z_stream stream = {.next_in = (Bytef *)text->bytes, .avail_in = (uInt)text->count};
    if (deflateInit2(&stream, 9, Z_DEFLATED, 15 + 16, 9, Z_DEFAULT_STRATEGY) != Z_OK) {
        return false;
    }
    uLong most = deflateBound(&stream, (uLong)text->count);
    char *packed = malloc(most);
    if (packed != NULL) {
        stream.next_out = (Bytef *)packed;
        stream.avail_out = (uInt)most;
        deflate(&stream, Z_FINISH);
        text->count = 0;
        plmi_text_add(text, packed, (size_t)stream.total_out);
    }
    deflateEnd(&stream);
    free(packed);
    return packed != NULL && !text->failed;
}
