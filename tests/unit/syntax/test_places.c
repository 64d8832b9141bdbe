/*
 * Lines and columns of bytes in pieces, against the counting of expat, which parses the same text; and by hand.
 * Source: XML 1.0, 2.11 for what ends a line; expat as a reference of its own.
 * SPDX-License-Identifier: MIT
 */
#include <expat.h>
#include <stdio.h>
#include <string.h>

#include "support/random.h"
#include "support/suite.h"
#include "syntax/places.h"

/* Of its own, and gone when the piece is left. */
static char *copy(const char *bytes, size_t count)
{
    char *piece = malloc(count + 1);
    ck_assert_ptr_nonnull(piece);
    return memcpy(piece, bytes, count);
}

START_TEST(by_hand)
{
    static const char text[] = "ab\ncd\r\nef\rg\xC3\xA4h\n";
    static const struct {
        uint64_t at;
        long line, column;
    } want[] = {{0, 1, 1}, {1, 1, 2}, {3, 2, 1}, {5, 2, 3}, {7, 3, 1}, {10, 4, 1}, {11, 4, 2}, {13, 4, 3}, {15, 5, 1}};
    for (size_t cut = 0; cut < sizeof text; cut++) {
        struct plmi_places places = {.counted = 0};
        char *piece = copy(text, cut);
        plmi_places_feed(&places, piece, cut);
        size_t i = 0;
        for (; i < sizeof want / sizeof want[0] && want[i].at < cut; i += 2) {
            (void)plmi_places_find(&places, want[i].at);
        }
        ck_assert(plmi_places_leave(&places));
        free(piece);
        plmi_places_feed(&places, text + cut, sizeof text - 1 - cut);
        for (; i < sizeof want / sizeof want[0]; i++) {
            struct plmi_place place = plmi_places_find(&places, want[i].at);
            ck_assert_msg(place.line == want[i].line && place.column == want[i].column, "cut %zu, byte %d: %ld:%ld",
                          cut, (int)want[i].at, place.line, place.column);
        }
        plmi_places_free(&places);
    }
}
END_TEST

struct both {
    XML_Parser parser;
    struct plmi_places places;
    uint64_t seed;
    size_t asked;
};

static void ask(struct both *both)
{
    struct plmi_place place = plmi_places_find(&both->places, (uint64_t)XML_GetCurrentByteIndex(both->parser));
    long line = (long)XML_GetCurrentLineNumber(both->parser),
         column = (long)XML_GetCurrentColumnNumber(both->parser) + 1;
    ck_assert_msg(place.line == line && place.column == column, "seed %llu: %ld:%ld, expat %ld:%ld",
                  (unsigned long long)both->seed, place.line, place.column, line, column);
    both->asked++;
}

static void XMLCALL on_open(void *context, const XML_Char *name, const XML_Char **attributes)
{
    (void)name;
    (void)attributes;
    ask(context);
}

static void XMLCALL on_close(void *context, const XML_Char *name)
{
    (void)name;
    ask(context);
}

/* Elements, text of several scripts, comments, and every kind of line end. */
static size_t invent(char *text, size_t room, struct seeded *seeded)
{
    static const char *const bits[] = {"<a>",
                                       "</a>",
                                       "x",
                                       " ",
                                       "\n",
                                       "\r\n",
                                       "\r",
                                       "\xC3\xA4",
                                       "\xE6\xB0\xB4",
                                       "\xF0\x9F\x90\xA0",
                                       "<!-- y\n -->",
                                       "<b c='\n'/>",
                                       "some plain words to pass over"};
    const size_t count = sizeof bits / sizeof bits[0];
    size_t used = 0, open = 0;
    used += (size_t)snprintf(text, room, "<r>");
    while (used + 200 < room) {
        size_t bit = (size_t)(seeded_uniform(seeded) * (double)count);
        if (bit == 1 && open == 0) {
            continue;
        }
        open += bit == 0 ? 1 : 0;
        open -= bit == 1 ? 1 : 0;
        open = open > 20 ? (used += (size_t)snprintf(text + used, room - used, "</a>"), open - 1) : open;
        used += (size_t)snprintf(text + used, room - used, "%s", bits[bit]);
    }
    for (; open > 0; open--) {
        used += (size_t)snprintf(text + used, room - used, "</a>");
    }
    return used + (size_t)snprintf(text + used, room - used, "</r>");
}

START_TEST(as_expat_counts)
{
    static char text[8192];
    for (uint64_t seed = 1; seed <= 100; seed++) {
        struct seeded seeded = {seed};
        struct both both = {.parser = XML_ParserCreate("UTF-8"), .seed = seed};
        size_t count = invent(text, sizeof text, &seeded);
        XML_SetUserData(both.parser, &both);
        XML_SetElementHandler(both.parser, on_open, on_close);
        for (size_t at = 0; at < count;) {
            size_t piece = 1 + (size_t)(seeded_uniform(&seeded) * (seed % 2 == 0 ? 40 : 2000));
            piece = piece < count - at ? piece : count - at;
            /* A line end is not parted: expat would count it twice. */
            piece += at + piece < count && text[at + piece - 1] == '\r' && text[at + piece] == '\n';
            char *bytes = copy(text + at, piece);
            plmi_places_feed(&both.places, bytes, piece);
            ck_assert_int_eq(XML_Parse(both.parser, bytes, (int)piece, at + piece == count), XML_STATUS_OK);
            ck_assert(plmi_places_leave(&both.places));
            free(bytes);
            at += piece;
        }
        ck_assert_uint_gt(both.asked, 100);
        plmi_places_free(&both.places);
        XML_ParserFree(both.parser);
    }
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {by_hand, as_expat_counts};
    return SUITE_RUN("places", tests);
}
