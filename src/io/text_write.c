/*
 * A text that is whole, given to a sink in one piece. Must not know what it is about.
 * SPDX-License-Identifier: MIT
 */
#include "io/text_write.h"

#include "base/diags.h"

enum plm_status plmi_text_write(struct plmi_text *text, const struct plm_sink *sink, const struct plm_diag_sink *diag)
{
    enum plm_status status = PLM_STATUS_OK;
    if (text->failed) {
        const struct plmi_diags diags = {diag, NULL};
        (void)plmi_diags_no_memory(&diags, 0, "for the report");
        status = PLM_STATUS_MEMORY;
    } else if (text->count > 0) {
        status = sink->write(sink->context, text->bytes, text->count);
    }
    plmi_text_free(text);
    return status;
}
