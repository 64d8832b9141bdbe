/*
 * What writers of reports share: a failure reported, and a finished piece given to the sink. Must not know any writer.
 * SPDX-License-Identifier: MIT
 */
#include "report/view/writer.h"

#include "base/diags.h"

enum plm_status plmi_writer_refuse(const struct plm_diag_sink *diag, const char *what)
{
    const struct plmi_diags diags = {diag, NULL};
    plmi_diags_add(&diags, PLM_LEVEL_ERROR, PLM_DIAG_USAGE, 0, 0, "%s", what);
    return PLM_STATUS_ARGUMENT;
}

enum plm_status plmi_writer_no_memory(const struct plm_diag_sink *diag, const char *what_for)
{
    const struct plmi_diags diags = {diag, NULL};
    return plmi_diags_no_memory(&diags, 0, "%s", what_for);
}

enum plm_status plmi_writer_unsuited(const struct plm_report *report)
{
    return plmi_writer_refuse(report->diag, "this report is about something else");
}

enum plm_status plmi_writer_flush(struct plm_report *report)
{
    struct plmi_text *out = &report->out;
    if (out->failed) {
        return plmi_writer_no_memory(report->diag, "for the report");
    }
    enum plm_status status =
        out->count > 0 ? report->sink->write(report->sink->context, out->bytes, out->count) : PLM_STATUS_OK;
    plmi_text_clear(out);
    return status;
}
