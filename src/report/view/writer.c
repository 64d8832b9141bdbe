/*
 * What writers of reports share: a failure told, and a finished piece given to the sink. Must not know any writer.
 * SPDX-License-Identifier: MIT
 */
#include "report/view/writer.h"

#include "base/diags.h"

enum plm_status plmi_writer_fail(const struct plm_diag_sink *diag, enum plm_status status, const char *what)
{
    struct plmi_diags diags;
    plmi_diags_init(&diags, diag, NULL);
    plmi_diags_add(&diags, PLM_LEVEL_ERROR, status == PLM_STATUS_MEMORY ? PLM_DIAG_MEMORY : PLM_DIAG_USAGE, 0, 0, "%s",
                   what);
    return status;
}

enum plm_status plmi_writer_unsuited(const struct plm_report *report)
{
    return plmi_writer_fail(report->diag, PLM_STATUS_ARGUMENT, "this report is about something else");
}

enum plm_status plmi_writer_flush(struct plm_report *report)
{
    struct plmi_text *out = &report->out;
    if (out->failed) {
        return plmi_writer_fail(report->diag, PLM_STATUS_MEMORY, "no memory for the report");
    }
    enum plm_status status =
        out->count > 0 ? report->sink->write(report->sink->context, out->bytes, out->count) : PLM_STATUS_OK;
    plmi_text_clear(out);
    return status;
}
