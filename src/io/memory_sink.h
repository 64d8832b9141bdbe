/*
 * A sink into a growing text.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_IO_MEMORY_SINK_H
#define PLM_IO_MEMORY_SINK_H

#include <plimsoll/sink.h>

#include "base/text.h"

/* Appends to text, which is borrowed. write returns MEMORY when it cannot grow. */
struct plm_sink plmi_memory_sink(struct plmi_text *text);

#endif
