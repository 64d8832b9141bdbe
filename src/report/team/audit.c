/*
 * The formats of an audit as a table.
 * SPDX-License-Identifier: MIT
 */
#include <string.h>

#include "report/team/audit_view.h"
#include "io/text_write.h"
#include "report/output/whole.h"

static const struct {
    const char *name;
    void (*write)(struct plmi_text *out, const struct plmi_audit_view *view);
} FORMATS[] = {
    {"text", plmi_audit_text},
    {"json", plmi_audit_json},
    {"csv", plmi_audit_csv},
    {"html", plmi_audit_html},
};

bool plm_report_audit_known(const char *format)
{
    for (size_t i = 0; i < sizeof FORMATS / sizeof FORMATS[0]; i++) {
        if (strcmp(FORMATS[i].name, format) == 0) {
            return true;
        }
    }
    return false;
}

enum plm_status plm_report_audit(const struct plm_audit *audit, const char *format,
                                 const struct plm_report_options *options,
                                 void (*page)(const struct plm_audit_row *row, char *buffer, size_t size),
                                 const struct plm_sink *sink, const struct plm_diag_sink *diag)
{
    for (size_t i = 0; i < sizeof FORMATS / sizeof FORMATS[0]; i++) {
        struct plmi_audit_view view;
        struct plmi_text out;
        if (strcmp(FORMATS[i].name, format) != 0) {
            continue;
        }
        plmi_whole_init(&out, format);
        if (plmi_audit_view_init(&view, audit, options)) {
            view.page = page;
            FORMATS[i].write(&out, &view);
        } else {
            out.failed = true;
        }
        plmi_audit_view_free(&view);
        return plmi_text_write(&out, sink, diag);
    }
    return plmi_whole_unknown(format, diag);
}
