/*
 * The reports over the ledger and their formats as a table.
 * SPDX-License-Identifier: MIT
 */
#include <string.h>

#include "report/ledger/view.h"
#include "io/text_write.h"
#include "report/output/whole.h"

static const struct {
    enum plm_ledger_report report;
    const char *name;
    void (*write)(struct plmi_text *out, const void *what, const struct plm_report_options *options);
} FORMATS[] = {
    {PLM_LEDGER_REPORT_LIST, "text", plmi_ledger_list_text}, {PLM_LEDGER_REPORT_LIST, "json", plmi_ledger_list_json},
    {PLM_LEDGER_REPORT_LIST, "csv", plmi_ledger_list_csv},   {PLM_LEDGER_REPORT_SHOW, "text", plmi_ledger_show_text},
    {PLM_LEDGER_REPORT_SHOW, "json", plmi_ledger_show_json}, {PLM_LEDGER_REPORT_SHOW, "csv", plmi_ledger_show_csv},
    {PLM_LEDGER_REPORT_SHOW, "html", plmi_ledger_show_html}, {PLM_LEDGER_REPORT_DUE, "text", plmi_ledger_due_text},
    {PLM_LEDGER_REPORT_DUE, "json", plmi_ledger_due_json},   {PLM_LEDGER_REPORT_DUE, "csv", plmi_ledger_due_csv},
};

#define FORMAT_COUNT (sizeof FORMATS / sizeof FORMATS[0])

bool plm_report_ledger_known(enum plm_ledger_report report, const char *format)
{
    for (size_t i = 0; i < FORMAT_COUNT; i++) {
        if (FORMATS[i].report == report && strcmp(FORMATS[i].name, format) == 0) {
            return true;
        }
    }
    return false;
}

static enum plm_status report_write(enum plm_ledger_report report, const void *what, const char *format,
                                    const struct plm_report_options *options, const struct plm_sink *sink,
                                    const struct plm_diag_sink *diag)
{
    for (size_t i = 0; i < FORMAT_COUNT; i++) {
        if (FORMATS[i].report == report && strcmp(FORMATS[i].name, format) == 0) {
            struct plmi_text out;
            plmi_whole_init(&out, format);
            FORMATS[i].write(&out, what, options);
            return plmi_text_write(&out, sink, diag);
        }
    }
    return plmi_whole_unknown(format, diag);
}

enum plm_status plm_report_ledger_list(const struct plm_ledger_listed *what, const char *format,
                                       const struct plm_report_options *options, const struct plm_sink *sink,
                                       const struct plm_diag_sink *diag)
{
    return report_write(PLM_LEDGER_REPORT_LIST, what, format, options, sink, diag);
}

enum plm_status plm_report_ledger_show(const struct plm_ledger_shown *what, const char *format,
                                       const struct plm_report_options *options, const struct plm_sink *sink,
                                       const struct plm_diag_sink *diag)
{
    return report_write(PLM_LEDGER_REPORT_SHOW, what, format, options, sink, diag);
}

enum plm_status plm_report_ledger_due(const struct plm_ledger_due *what, const char *format,
                                      const struct plm_report_options *options, const struct plm_sink *sink,
                                      const struct plm_diag_sink *diag)
{
    return report_write(PLM_LEDGER_REPORT_DUE, what, format, options, sink, diag);
}
