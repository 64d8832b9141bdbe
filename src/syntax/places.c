/*
 * Counting lines once over, and fast where text is plain: expat's own counting costs a third of a parse.
 * Must not know of XML.
 * SPDX-License-Identifier: MIT
 */
#include "syntax/places.h"

#include <string.h>

/* No CR, nothing beyond ASCII: looked at eight bytes at a time. */
static bool is_plain(const char *bytes, size_t count)
{
    const uint64_t top = UINT64_C(0x8080808080808080);
    uint64_t seen = 0;
    size_t at = 0;
    for (; count - at >= sizeof seen; at += sizeof seen) {
        uint64_t eight;
        memcpy(&eight, bytes + at, sizeof eight);
        seen |= eight;
    }
    for (; at < count; at++) {
        seen |= (unsigned char)bytes[at];
    }
    return (seen & top) == 0 && memchr(bytes, '\r', count) == NULL;
}

static void count_any(struct plmi_places *places, const char *bytes, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        bool lf = bytes[i] == '\n', cr = bytes[i] == '\r';
        if (cr || (lf && !places->after_cr)) {
            places->lines++;
        }
        bool continues = ((unsigned char)bytes[i] & 0xc0) == 0x80;
        places->characters = lf || cr ? 0 : places->characters + (continues ? 0 : 1);
        places->after_cr = cr;
    }
}

static void count_plain(struct plmi_places *places, const char *bytes, size_t count)
{
    const char *at = bytes, *end = bytes + count, *line_end;
    if (places->after_cr) {
        count_any(places, bytes, count);
        return;
    }
    while ((line_end = memchr(at, '\n', (size_t)(end - at))) != NULL) {
        places->lines++;
        places->characters = 0;
        at = line_end + 1;
    }
    places->characters += end - at;
}

/* What is left of earlier pieces, up to a place. */
static void count_rest(struct plmi_places *places, uint64_t at)
{
    uint64_t end = at < places->start ? at : places->start;
    size_t count = (size_t)(end - places->counted);
    count_any(places, places->rest.bytes + (places->rest.count - (size_t)(places->start - places->counted)), count);
    places->counted = end;
}

struct plmi_place plmi_places_find(struct plmi_places *places, uint64_t at)
{
    if (places->counted < places->start && places->counted < at) {
        count_rest(places, at);
    }
    if (at > places->counted) {
        const char *from = places->piece + (places->counted - places->start);
        size_t count = (size_t)(at - places->counted);
        if (places->plain) {
            count_plain(places, from, count);
        } else {
            count_any(places, from, count);
        }
        places->counted = at;
    }
    return (struct plmi_place){places->lines + 1, places->characters + 1};
}

void plmi_places_feed(struct plmi_places *places, const char *bytes, size_t count)
{
    places->piece = bytes;
    places->count = count;
    places->plain = is_plain(bytes, count);
}

bool plmi_places_leave(struct plmi_places *places)
{
    if (places->counted >= places->start) {
        size_t done = (size_t)(places->counted - places->start);
        plmi_text_clear(&places->rest);
        plmi_text_add(&places->rest, places->piece + done, places->count - done);
    } else {
        plmi_text_add(&places->rest, places->piece, places->count);
    }
    places->start += places->count;
    places->count = 0;
    places->piece = NULL;
    return !places->rest.failed;
}

void plmi_places_free(struct plmi_places *places)
{
    plmi_text_free(&places->rest);
}
