/*
 * A sink that keeps what it is given, for tests.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_SUPPORT_MEMORY_SINK_H
#define PLM_SUPPORT_MEMORY_SINK_H

#include <plimsoll/sink.h>

#include "base/text.h"

static inline enum plm_status memory_sink_take(void *context, const void *bytes, size_t count)
{
    struct plmi_text *text = context;
    plmi_text_add(text, bytes, count);
    return text->failed ? PLM_STATUS_IO : PLM_STATUS_OK;
}

/* Bytes are added to text, which the caller frees. */
static inline struct plm_sink memory_sink(struct plmi_text *text)
{
    return (struct plm_sink){memory_sink_take, text};
}

#endif
