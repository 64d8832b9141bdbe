/*
 * The ledger for programs: JSON, and CSV with a row a day or a dive. Keys are stable; new ones may come.
 * SPDX-License-Identifier: MIT
 */
#include <string.h>

#include "report/ledger/view.h"
#include "syntax/markup.h"

static void day_json(struct plmi_json *json, const struct plm_day *day)
{
    struct plmi_text date;
    plmi_text_init(&date);
    plmi_ledger_date_write(&date, day->day);
    plmi_json_object_begin(json, NULL);
    plmi_json_text(json, "date", date.bytes);
    plmi_ledger_figures_json(json, &plmi_ledger_day_figures, day);
    plmi_ledger_findings_json(json, day->serious, day->caution, day->note);
    plmi_json_object_end(json);
    json->out->failed = json->out->failed || date.failed;
    plmi_text_free(&date);
}

static void dives_json(struct plmi_json *json, const struct plm_entry *dives, size_t count, bool with_diver)
{
    plmi_json_array_begin(json, "dives");
    for (size_t i = 0; i < count; i++) {
        plmi_ledger_dive_json(json, &dives[i], with_diver);
    }
    plmi_json_array_end(json);
}

static void json_end(struct plmi_json *json)
{
    plmi_ledger_cautions_json(json, plmi_ledger_own_caution);
    plmi_json_object_end(json);
    plmi_text_puts(json->out, "\n");
}

void plmi_ledger_show_json(struct plmi_text *out, const void *what, const struct plm_report_options *options)
{
    const struct plm_ledger_shown *shown = what;
    struct plmi_json json;
    (void)options;
    plmi_json_init(&json, out, 2);
    plmi_json_object_begin(&json, NULL);
    plmi_json_text(&json, "diver", shown->diver);
    plmi_json_array_begin(&json, "days");
    for (size_t i = 0; i < shown->day_count; i++) {
        day_json(&json, &shown->days[i]);
    }
    plmi_json_array_end(&json);
    dives_json(&json, shown->dives, shown->dive_count, false);
    json_end(&json);
}

void plmi_ledger_show_csv(struct plmi_text *out, const void *what, const struct plm_report_options *options)
{
    const struct plm_ledger_shown *shown = what;
    (void)options;
    plmi_text_puts(out, "diver,date");
    plmi_ledger_figures_head(out, &plmi_ledger_day_figures);
    plmi_text_puts(out, ",serious,caution,note\n");
    for (size_t i = 0; i < shown->day_count; i++) {
        const struct plm_day *day = &shown->days[i];
        plmi_csv_cell(out, shown->diver);
        plmi_text_puts(out, ",");
        plmi_ledger_date_write(out, day->day);
        plmi_ledger_figures_cells(out, &plmi_ledger_day_figures, day);
        plmi_text_printf(out, ",%zu,%zu,%zu\n", day->serious, day->caution, day->note);
    }
}

void plmi_ledger_list_json(struct plmi_text *out, const void *what, const struct plm_report_options *options)
{
    const struct plm_ledger_listed *listed = what;
    struct plmi_json json;
    (void)options;
    plmi_json_init(&json, out, 2);
    plmi_json_object_begin(&json, NULL);
    plmi_json_array_begin(&json, "divers");
    for (size_t i = 0; i < listed->dive_count; i += plmi_ledger_diver_run(listed, i)) {
        plmi_json_object_begin(&json, NULL);
        plmi_json_text(&json, "diver", listed->dives[i].exposure.diver);
        plmi_json_integer(&json, "dives", (long long)plmi_ledger_diver_run(listed, i));
        plmi_json_object_end(&json);
    }
    plmi_json_array_end(&json);
    dives_json(&json, listed->dives, listed->dive_count, true);
    json_end(&json);
}

void plmi_ledger_list_csv(struct plmi_text *out, const void *what, const struct plm_report_options *options)
{
    const struct plm_ledger_listed *listed = what;
    (void)options;
    plmi_text_puts(out, "dive,diver,start,log,sha256,index");
    plmi_ledger_figures_head(out, &plmi_ledger_dive_figures);
    plmi_text_puts(out, ",serious,caution,note,worst,program\n");
    for (size_t i = 0; i < listed->dive_count; i++) {
        const struct plm_exposure *exposure = &listed->dives[i].exposure;
        const struct plm_figures *figures = &listed->dives[i].figures;
        plmi_text_printf(out, "%lld,", (long long)exposure->id);
        plmi_csv_cell(out, exposure->diver);
        plmi_text_puts(out, ",");
        plmi_ledger_start_write(out, &exposure->span);
        plmi_text_puts(out, ",");
        plmi_csv_cell(out, exposure->log_name);
        plmi_text_printf(out, ",%s,%d", exposure->log_sha256, exposure->log_index);
        plmi_ledger_figures_cells(out, &plmi_ledger_dive_figures, &listed->dives[i]);
        plmi_text_printf(out, ",%zu,%zu,%zu,", figures->serious, figures->caution, figures->note);
        plmi_csv_cell(out, figures->worst != NULL ? figures->worst : "");
        plmi_text_puts(out, ",");
        plmi_csv_cell(out, figures->program != NULL ? figures->program : "");
        plmi_text_puts(out, "\n");
    }
}
