/*
 * Bytes to UTF-8, piece by piece: byte order marks, UTF-16 with and without one, a declared encoding,
 * Latin-1 by evidence. What comes out is valid UTF-8 without control bytes other than tab, CR and LF.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_SYNTAX_DECODE_H
#define PLM_SYNTAX_DECODE_H

#include <plimsoll/source.h>

#include "base/diags.h"

/* What decides the encoding where no byte order mark does. */
enum plmi_text_kind {
    PLMI_TEXT_TABLE, /* UTF-8, or Windows-1252 where the bytes cannot be UTF-8 */
    PLMI_TEXT_XML    /* the XML declaration, else UTF-8                        */
};

struct plmi_decoder; /* opaque; reads the source from where it stands */

/* Errors: MEMORY, and those of reading. source and diags are borrowed. */
enum plm_status plmi_decoder_open(struct plmi_decoder **out, struct plm_source *source, enum plmi_text_kind kind,
                                  struct plmi_diags *diags);
/*
 * The next piece, of at least one byte, cut between characters; borrowed until the next call.
 * Bytes that are no text become U+FFFD, reported by line.
 * Returns: OK, END, or an error that is reported.
 */
enum plm_status plmi_decoder_next(struct plmi_decoder *decoder, const char **bytes, size_t *count);
/* Whether bytes so far were no text, or an encoding was declared that they are not read in; reported. */
bool plmi_decoder_partial(const struct plmi_decoder *decoder);
void plmi_decoder_free(struct plmi_decoder *decoder);

#endif
