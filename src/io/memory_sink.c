/*
 * A sink into a growing text. Must not report: who owns the text knows.
 * SPDX-License-Identifier: MIT
 */
#include "io/memory_sink.h"

static enum plm_status write_text(void *context, const void *bytes, size_t count)
{
    struct plmi_text *text = context;
    plmi_text_add(text, bytes, count);
    return text->failed ? PLM_STATUS_MEMORY : PLM_STATUS_OK;
}

struct plm_sink plmi_memory_sink(struct plmi_text *text)
{
    return (struct plm_sink){write_text, text};
}
