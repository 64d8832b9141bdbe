/*
 * Tables: the canonical CSV, and the ways in which others write one.
 * Must not change a figure, but for the units of its format.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "base/clock.h"
#include "base/number.h"
#include "generate/writers.h"

static const double m_per_ft = 0.3048;
static const double surface_default_bar = 1.01325;

void gen_write_number(struct plmi_text *out, double value, int digits)
{
    plmi_number_fixed(out, value, digits);
}

void gen_write_stamp(struct plmi_text *out, int64_t local_ms, int zone_min)
{
    struct plm_stamp stamp = {
        .local_ms = local_ms,
        .offset_min = zone_min,
        .known = true,
        .has_zone = zone_min != 0,
        .has_clock = true,
    };
    plmi_clock_write(out, &stamp);
}

/* A number as writers of the continent put it. */
static void comma_number(struct plmi_text *out, double value, int digits)
{
    size_t from = out->count;
    plmi_number_fixed(out, value, digits);
    for (size_t i = from; i < out->count; i++) {
        if (out->bytes[i] == '.') {
            out->bytes[i] = ',';
        }
    }
}

static int depth_digits(const struct gen_record *record)
{
    double tenths = record->recorder->step_m * 10;
    return fabs(tenths - floor(tenths + 0.5)) < 1e-9 ? 1 : 2;
}

static const struct gen_event *event_of(const struct gen_record *record, size_t sample)
{
    return &record->events[record->samples[sample].event];
}

static bool has_loop(const struct gen_record *record)
{
    return record->dive->setpoint_count > 0;
}

/* The settings of a canonical row: empty while they stay. */
static void csv_settings(struct plmi_text *out, const struct gen_record *record, size_t i)
{
    bool changed = record->samples[i].changed;
    const struct gen_event *event = event_of(record, i);
    const struct gen_event *before = i > 0 ? event_of(record, i - 1) : NULL;
    plmi_text_puts(out, ",");
    if (changed && (before == NULL || before->mode != event->mode)) {
        plmi_text_puts(out, plm_mode_text(event->mode));
    }
    bool mix = changed && (before == NULL || before->mix.o2_frac != event->mix.o2_frac ||
                           before->mix.he_frac != event->mix.he_frac);
    plmi_text_puts(out, ",");
    gen_write_number(out, mix ? event->mix.o2_frac : (double)NAN, 2);
    plmi_text_puts(out, ",");
    gen_write_number(out, mix ? event->mix.he_frac : (double)NAN, 2);
    if (has_loop(record)) {
        plmi_text_puts(out, ",");
        gen_write_number(out, changed ? event->setpoint_bar : (double)NAN, 2);
    }
}

void gen_write_csv(struct plmi_text *out, const struct gen_record *records, int count)
{
    (void)count;
    const struct gen_record *record = records;
    plmi_text_puts(out, "time_s,depth_m,temp_c,mode,o2_frac,he_frac");
    plmi_text_puts(out, has_loop(record) ? ",setpoint_bar" : "");
    for (int cell = 0; cell < record->recorder->cells; cell++) {
        plmi_text_printf(out, ",cell%d_bar", cell + 1);
    }
    plmi_text_puts(out, "\n");
    for (size_t i = 0; i < record->count; i++) {
        const struct gen_sample *sample = &record->samples[i];
        gen_write_number(out, sample->time_s, 0);
        plmi_text_puts(out, ",");
        gen_write_number(out, sample->depth_m, depth_digits(record));
        plmi_text_puts(out, ",");
        gen_write_number(out, sample->temp_c, 1);
        csv_settings(out, record, i);
        for (int cell = 0; cell < record->recorder->cells; cell++) {
            plmi_text_puts(out, ",");
            gen_write_number(out, sample->cell_bar[cell], 2);
        }
        plmi_text_puts(out, "\n");
    }
}

/* "1:05:30" or "65:30" by the minutes alone. */
static void minutes_seconds(struct plmi_text *out, double time_s)
{
    long s = (long)(time_s + 0.5);
    plmi_text_printf(out, "%ld:%02ld", s / 60, s % 60);
}

/* Semicolons, decimal commas, German words; one oxygen column. */
void gen_write_csv_semicolon(struct plmi_text *out, const struct gen_record *records, int count)
{
    (void)count;
    const struct gen_record *record = records;
    bool cells = record->recorder->cells > 0;
    plmi_text_puts(out, "Zeit (min:s);Tiefe (m);Temperatur (\xc2\xb0"
                        "C);O2 (%);He (%)");
    plmi_text_puts(out, cells ? ";PO2 (bar)\r\n" : "\r\n");
    for (size_t i = 0; i < record->count; i++) {
        const struct gen_sample *sample = &record->samples[i];
        const struct gen_event *event = event_of(record, i);
        minutes_seconds(out, sample->time_s);
        plmi_text_puts(out, ";");
        comma_number(out, sample->depth_m, depth_digits(record));
        plmi_text_puts(out, ";");
        comma_number(out, sample->temp_c, 1);
        plmi_text_puts(out, ";");
        comma_number(out, event->mix.o2_frac * 100, 0);
        plmi_text_puts(out, ";");
        comma_number(out, event->mix.he_frac * 100, 0);
        if (cells) {
            plmi_text_puts(out, ";");
            comma_number(out, sample->cell_bar[0], 2);
        }
        plmi_text_puts(out, "\r\n");
    }
}

/* Minutes with a fraction, feet, Fahrenheit; no word of the gas. */
void gen_write_csv_feet(struct plmi_text *out, const struct gen_record *records, int count)
{
    (void)count;
    plmi_text_puts(out, "Elapsed (min),Depth (ft),Water Temp (F)\n");
    for (size_t i = 0; i < records->count; i++) {
        const struct gen_sample *sample = &records->samples[i];
        gen_write_number(out, sample->time_s / 60, 3);
        plmi_text_puts(out, ",");
        gen_write_number(out, sample->depth_m / m_per_ft, 1);
        plmi_text_puts(out, ",");
        gen_write_number(out, sample->temp_c * 9 / 5 + 32, 1);
        plmi_text_puts(out, "\n");
    }
}

/* Clock times, and absolute pressure in place of depth; no word of the gas. */
void gen_write_csv_pressure(struct plmi_text *out, const struct gen_record *records, int count)
{
    (void)count;
    double surface_bar = records->dive->surface_bar;
    surface_bar = surface_bar > 0 ? surface_bar : surface_default_bar;
    plmi_text_puts(out, "time\tabsolute pressure (mbar)\ttemperature (C)\n");
    for (size_t i = 0; i < records->count; i++) {
        const struct gen_sample *sample = &records->samples[i];
        double pressure_bar = plm_ambient_bar(surface_bar, sample->depth_m, 1019.7162);
        gen_write_stamp(out, records->start_ms + (int64_t)sample->time_s * 1000, 0);
        plmi_text_puts(out, "\t");
        gen_write_number(out, pressure_bar * 1000, 0);
        plmi_text_puts(out, "\t");
        gen_write_number(out, sample->temp_c, 1);
        plmi_text_puts(out, "\n");
    }
}

/* Words before the table, mixes by name, and set points beside one measured value. */
void gen_write_csv_preamble(struct plmi_text *out, const struct gen_record *records, int count)
{
    (void)count;
    const struct gen_record *record = records;
    plmi_text_puts(out, "Start: ");
    gen_write_stamp(out, record->start_ms, record->zone_min);
    plmi_text_printf(out, "\nDiver: %s\nRecorder: %s\n", record->dive->diver, record->recorder->name);
    if (record->dive->surface_bar > 0) {
        plmi_text_puts(out, "Surface pressure: ");
        gen_write_number(out, record->dive->surface_bar * 1000, 0);
        plmi_text_puts(out, " mbar\n");
    }
    plmi_text_puts(out, "\nTime (s),Depth (m),Temp (C),Gas,Mode,Set point (bar),PO2 (bar)\n");
    for (size_t i = 0; i < record->count; i++) {
        const struct gen_sample *sample = &record->samples[i];
        const struct gen_event *event = event_of(record, i);
        gen_write_number(out, sample->time_s, 0);
        plmi_text_puts(out, ",");
        gen_write_number(out, sample->depth_m, depth_digits(record));
        plmi_text_puts(out, ",");
        gen_write_number(out, sample->temp_c, 1);
        plmi_text_puts(out, ",");
        gen_write_number(out, event->mix.o2_frac * 100, 0);
        plmi_text_puts(out, "/");
        gen_write_number(out, event->mix.he_frac * 100, 0);
        plmi_text_printf(out, ",%s,", plm_mode_text(event->mode));
        gen_write_number(out, event->setpoint_bar, 2);
        plmi_text_puts(out, ",");
        bool loop = event->mode == PLM_MODE_CLOSED && record->recorder->cells > 0;
        gen_write_number(out, loop ? sample->cell_bar[0] : (double)NAN, 2);
        plmi_text_puts(out, "\n");
    }
}
