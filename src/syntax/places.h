/*
 * Lines and columns of a text that comes in pieces, asked for at places that never go back. Pure but for memory.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_SYNTAX_PLACES_H
#define PLM_SYNTAX_PLACES_H

#include <stdint.h>

#include "base/text.h"

struct plmi_place {
    long line, column;
}; /* from 1, in characters; a line ends with LF, CR or both */

/* Zeroed: before the first byte. Free it with plmi_places_free. */
struct plmi_places {
    uint64_t counted;       /* bytes up to which lines are counted */
    long lines, characters; /* full lines before that, and characters behind them */
    bool after_cr;          /* the byte before was CR */
    struct plmi_text rest;  /* counted .. start of the piece */
    const char *piece;      /* borrowed until it is left */
    uint64_t start;         /* of the piece */
    size_t count;
    bool plain; /* no byte of the piece is CR or beyond ASCII */
};

/* The next piece, after the last one was left. */
void plmi_places_feed(struct plmi_places *places, const char *bytes, size_t count);
/* The piece goes; what was not counted of it is kept. Returns: false without memory; places are over then. */
bool plmi_places_leave(struct plmi_places *places);
/* The place of a byte, by its number from 0; not before any asked for, and not behind what was fed. */
struct plmi_place plmi_places_find(struct plmi_places *places, uint64_t at);
void plmi_places_free(struct plmi_places *places);

#endif
