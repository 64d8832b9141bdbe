/*
 * A text that is whole, given to a sink in one piece.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_IO_TEXT_WRITE_H
#define PLM_IO_TEXT_WRITE_H

#include <plimsoll/sink.h>

#include "base/text.h"

/* Gives the text to the sink and frees it. Returns: OK, MEMORY (reported), IO (the sink has reported). */
enum plm_status plmi_text_write(struct plmi_text *text, const struct plm_sink *sink, const struct plm_diag_sink *diag);

#endif
