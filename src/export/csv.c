/*
 * A dive as a table: lines of facts, a header, a row a sample, in units of the trade. Must not leave out anything
 * that it has no place for without saying so.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <string.h>

#include "base/clock.h"
#include "base/number.h"
#include "export/csv.h"
#include "syntax/markup.h"

/* Which columns a dive needs. */
struct table {
    struct plmi_text *out;
    const struct plm_dive *dive;
    const struct plm_setting *settings;
    const struct plm_dive_mix *mixes;
    const struct plm_event *events;
    size_t event_count, event; /* event: the next */
    uint32_t assumed;          /* mix that is not stated until the diver leaves it */
    bool away;
    bool temp, mode, mix, setpoint, po2, any_events;
    int cells;
    double setpoint_bar; /* in force in the rows so far */
};

/* "key: text" as one cell on its own line; nothing for NULL and "". */
static void fact_text(struct plmi_text *out, const char *key, const char *text)
{
    struct plmi_text line;
    if (text == NULL || text[strspn(text, " \t")] == '\0') {
        return;
    }
    plmi_text_init(&line);
    plmi_text_printf(&line, "%s: %s", key, text);
    if (line.bytes != NULL) {
        plmi_csv_cell(out, line.bytes);
    }
    plmi_text_puts(out, "\n");
    out->failed = out->failed || line.failed;
    plmi_text_free(&line);
}

static void fact_number(struct plmi_text *out, const char *key, double value, const char *unit)
{
    if (!isfinite(value)) {
        return;
    }
    plmi_text_printf(out, "%s: ", key);
    plmi_number_short(out, value);
    plmi_text_printf(out, "%s\n", unit);
}

static void facts_add(struct plmi_text *out, const struct plm_dive_info *info)
{
    struct plmi_text start;
    plmi_text_init(&start);
    plmi_clock_write(&start, &info->start);
    plmi_text_puts(out, "one dive: yes\n");
    fact_text(out, "diver", info->diver);
    fact_text(out, "start", info->start.known ? start.bytes : NULL);
    fact_text(out, "recorder", info->recorder);
    fact_text(out, "site", info->site);
    fact_text(out, "dive number", info->number);
    fact_number(out, "surface pressure", info->surface_bar, " bar");
    fact_number(out, "altitude", info->altitude_m, " m");
    fact_number(out, "water density", info->water_kg_m3, "");
    if (!isnan(info->gf_low_pct)) {
        plmi_text_puts(out, "gradient factors: ");
        plmi_number_short(out, info->gf_low_pct);
        plmi_text_puts(out, "/");
        plmi_number_short(out, info->gf_high_pct);
        plmi_text_puts(out, "\n");
    }
    fact_text(out, "notes", info->notes);
    out->failed = out->failed || start.failed;
    plmi_text_free(&start);
}

static void carried_add(struct plm_export *export, const struct plm_dive *dive)
{
    size_t count;
    struct plmi_text *out = &export->body;
    const struct plm_dive_mix *mixes = plm_dive_mixes(dive, &count);
    const uint32_t *order = plmi_export_mix_order(export, dive, &count);
    for (size_t i = 0; i < count; i++) {
        const struct plm_dive_mix *mix = &mixes[order[i]];
        if (!mix->carried) {
            continue;
        }
        plmi_text_puts(out, "carried mix: ");
        plmi_number_short(out, mix->mix.o2_frac);
        plmi_text_puts(out, " O2 ");
        plmi_number_short(out, mix->mix.he_frac);
        plmi_text_puts(out, " He");
        if (mix->use != PLM_MIX_USE_ANY) {
            plmi_text_printf(out, " %s", plmi_export_use(mix->use));
        }
        if (!isnan(mix->po2_max_bar)) {
            plmi_text_puts(out, " ");
            plmi_number_short(out, mix->po2_max_bar);
            plmi_text_puts(out, " bar");
        }
        plmi_text_puts(out, "\n");
    }
}

static void columns_find(struct table *table)
{
    size_t count;
    const struct plm_sample *samples = plm_dive_samples(table->dive, &count);
    for (size_t i = 0; i < count; i++) {
        const struct plm_setting *setting = &table->settings[samples[i].setting];
        table->temp = table->temp || !isnan(samples[i].temp_c);
        table->po2 = table->po2 || !isnan(samples[i].po2_bar);
        table->mix = table->mix || setting->mix != table->assumed;
        table->setpoint = table->setpoint || !isnan(setting->setpoint_bar);
    }
    table->mode = plm_dive_info_get(table->dive)->mode_known;
    table->cells = plmi_export_cells(table->dive);
    table->any_events = table->event < table->event_count;
}

static void header_add(const struct table *table)
{
    const struct {
        const char *name;
        bool there;
    } columns[] = {{",temp_c", table->temp},
                   {",mode", table->mode},
                   {",o2_frac,he_frac", table->mix},
                   {",setpoint_bar", table->setpoint},
                   {",po2_bar", table->po2}};
    plmi_text_puts(table->out, "time_s,depth_m");
    for (size_t i = 0; i < sizeof columns / sizeof columns[0]; i++) {
        plmi_text_puts(table->out, columns[i].there ? columns[i].name : "");
    }
    for (int cell = 1; cell <= table->cells; cell++) {
        plmi_text_printf(table->out, ",cell%d_bar", cell);
    }
    plmi_text_puts(table->out, table->any_events ? ",recorded_events\n" : "\n");
}

static void number_cell(struct table *table, bool there, double value)
{
    plmi_text_puts(table->out, there ? "," : "");
    if (there) {
        plmi_number_short(table->out, value);
    }
}

static void setting_cells(struct table *table, const struct plm_setting *setting)
{
    const struct plm_mix *mix = &table->mixes[setting->mix].mix;
    table->away = table->away || setting->mix != table->assumed;
    if (table->mode) {
        plmi_text_printf(table->out, ",%s", plm_mode_text(setting->mode));
    }
    number_cell(table, table->mix, table->away ? mix->o2_frac : (double)NAN);
    number_cell(table, table->mix, table->away ? mix->he_frac : (double)NAN);
    /* An empty cell leaves what is in force; 0 takes it away. */
    bool taken_away = isnan(setting->setpoint_bar) && !isnan(table->setpoint_bar);
    number_cell(table, table->setpoint, taken_away ? 0 : setting->setpoint_bar);
    table->setpoint_bar = setting->setpoint_bar;
}

/* The events of this moment, which ends the row. */
static void event_cell(struct table *table, int64_t time_ms)
{
    struct plmi_text cell;
    size_t first = table->event;
    while (table->event < table->event_count && table->events[table->event].time_ms == time_ms) {
        table->event++;
    }
    plmi_text_init(&cell);
    if (table->event > first) {
        plmi_export_csv_events(&cell, &table->events[first], table->event - first);
    }
    plmi_text_puts(table->out, table->any_events ? "," : "");
    if (cell.bytes != NULL) {
        plmi_csv_cell(table->out, cell.bytes);
    }
    plmi_text_puts(table->out, "\n");
    table->out->failed = table->out->failed || cell.failed;
    plmi_text_free(&cell);
}

/* Rows of events alone, for moments without a sample. */
static void events_between(struct table *table, int64_t before_ms)
{
    while (table->event < table->event_count && table->events[table->event].time_ms < before_ms) {
        int64_t time_ms = table->events[table->event].time_ms;
        int empty = 1 + (int)table->temp + (int)table->mode + 2 * (int)table->mix + (int)table->setpoint +
                    (int)table->po2 + table->cells;
        plmi_export_seconds(table->out, time_ms);
        for (int i = 0; i < empty; i++) {
            plmi_text_puts(table->out, ",");
        }
        event_cell(table, time_ms);
    }
}

static void row_add(struct table *table, const struct plm_sample *sample)
{
    events_between(table, sample->time_ms);
    plmi_export_seconds(table->out, sample->time_ms);
    number_cell(table, true, sample->depth_m);
    plmi_text_puts(table->out, table->temp ? "," : "");
    if (!isnan(sample->temp_c)) {
        plmi_export_temp(table->out, sample->temp_c, 0);
    }
    setting_cells(table, &table->settings[sample->setting]);
    number_cell(table, table->po2, sample->po2_bar);
    for (int cell = 0; cell < table->cells; cell++) {
        number_cell(table, true, sample->cell_bar[cell]);
    }
    event_cell(table, sample->time_ms);
}

/* Whether a mix has a name of its own, beyond its parts. */
static bool names_own(const struct plm_dive *dive)
{
    size_t count;
    char name[32];
    const struct plm_dive_mix *mixes = plm_dive_mixes(dive, &count);
    for (size_t i = 0; i < count; i++) {
        if (mixes[i].name[0] != '\0' && strcmp(mixes[i].name, plm_mix_name(&mixes[i].mix, name, sizeof name)) != 0) {
            return true;
        }
    }
    return false;
}

static void left_out_tell(struct plm_export *export, const struct plm_dive *dive, size_t events_before)
{
    const struct plm_dive_info *info = plm_dive_info_get(dive);
    const struct {
        const char *what;
        bool there;
    } parts[] = {
        {"its plan", plm_dive_plan(dive) != NULL},
        {"the surface interval before it", isfinite(info->surface_interval_s)},
        {"the names of its mixes", names_own(dive)},
        {"events before the first sample", events_before > 0},
    };
    struct plmi_text list;
    plmi_text_init(&list);
    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++) {
        if (parts[i].there) {
            plmi_text_printf(&list, "%s%s", list.count > 0 ? ", " : "", parts[i].what);
        }
    }
    if (list.count > 0 && !list.failed) {
        plmi_diags_add(&export->diags, PLM_LEVEL_NOTE, PLM_DIAG_LEFT_OUT, (long)info->line, 0,
                       "dive %d: a table has no place for %s; left out (UDDF has)", info->index, list.bytes);
    }
    plmi_text_free(&list);
}

static void csv_add(struct plm_export *export, const struct plm_dive *dive)
{
    size_t sample_count, count;
    const struct plm_sample *samples = plm_dive_samples(dive, &sample_count);
    struct table table = {
        .out = &export->body, .dive = dive, .setpoint_bar = (double)NAN, .assumed = plmi_export_assumed_mix(dive)};
    table.settings = plm_dive_settings(dive, &count);
    table.mixes = plm_dive_mixes(dive, &count);
    table.events = plm_dive_events(dive, &table.event_count);
    while (table.event < table.event_count && table.events[table.event].time_ms < samples[0].time_ms) {
        table.event++;
    }
    left_out_tell(export, dive, table.event);
    facts_add(table.out, plm_dive_info_get(dive));
    carried_add(export, dive);
    columns_find(&table);
    header_add(&table);
    for (size_t i = 0; i < sample_count; i++) {
        row_add(&table, &samples[i]);
    }
    events_between(&table, INT64_MAX);
}

static void csv_write(struct plm_export *export, struct plmi_text *out)
{
    plmi_text_add(out, export->body.bytes != NULL ? export->body.bytes : "", export->body.count);
}

const struct plmi_exporter plmi_exporter_csv = {
    .format = {"csv", "a table, one row a sample, lines of facts before it; one dive", true},
    .add = csv_add,
    .write = csv_write,
};
