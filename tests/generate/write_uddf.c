/*
 * The open XML format, 3.2 and 2.2. Must not change a figure, but for its units.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "base/clock.h"
#include "generate/writers.h"

static int mix_index(struct gen_mixes *mixes, const struct plm_mix *mix)
{
    for (int i = 0; i < mixes->count; i++) {
        if (mixes->mix[i].o2_frac == mix->o2_frac && mixes->mix[i].he_frac == mix->he_frac) {
            return i;
        }
    }
    if (mixes->count == GEN_FILE_MIXES) {
        return 0;
    }
    mixes->mix[mixes->count] = *mix;
    return mixes->count++;
}

void gen_mixes_take(struct gen_mixes *mixes, const struct gen_dive *dive)
{
    mix_index(mixes, &dive->mix);
    for (int i = 0; i < dive->deco_count; i++) {
        mix_index(mixes, &dive->deco[i].mix);
    }
}

static void tag_number(struct plmi_text *out, const char *tag, double value, int digits)
{
    if (isnan(value)) {
        return;
    }
    plmi_text_printf(out, "<%s>", tag);
    gen_write_number(out, value, digits);
    plmi_text_printf(out, "</%s>", tag);
}

static void tag_text(struct plmi_text *out, const char *tag, const char *text)
{
    plmi_text_printf(out, "<%s>%s</%s>", tag, text, tag);
}

/* Pascal, of a figure with two digits in bar: a whole number. */
static double pascal(double bar)
{
    return floor(bar * 100 + 0.5) * 1000;
}

static void write_mixes(struct plmi_text *out, const struct gen_mixes *mixes)
{
    plmi_text_puts(out, "<gasdefinitions>\n");
    for (int i = 0; i < mixes->count; i++) {
        const struct plm_mix *mix = &mixes->mix[i];
        char name[24];
        plmi_text_printf(out, "<mix id=\"mix_%d\">", i + 1);
        tag_text(out, "name", plm_mix_name(mix, name, sizeof name));
        tag_number(out, "o2", mix->o2_frac, 2);
        tag_number(out, "n2", fabs(mix->n2_frac), 2);
        tag_number(out, "he", mix->he_frac, 2);
        plmi_text_puts(out, "</mix>\n");
    }
    plmi_text_puts(out, "</gasdefinitions>\n");
}

static void write_head(struct plmi_text *out, const struct gen_record *record, const char *version,
                       const char *name_space)
{
    plmi_text_printf(out, "<?xml version=\"1.0\" encoding=\"utf-8\"?>\n<uddf version=\"%s\"%s>\n", version, name_space);
    plmi_text_puts(out, "<generator><name>");
    plmi_text_printf(out, "%s</name><version>1</version></generator>\n", record->recorder->name);
}

static void write_diver(struct plmi_text *out, const struct gen_record *record)
{
    plmi_text_puts(out, "<diver><owner id=\"owner\"><personal>");
    tag_text(out, "firstname", record->dive->diver);
    plmi_text_puts(out, "</personal><equipment>");
    plmi_text_printf(out, "<divecomputer id=\"recorder\"><name>%s</name></divecomputer>", record->recorder->name);
    if (record->recorder->cells > 0) {
        plmi_text_puts(out, "<rebreather id=\"loop\"><name>loop</name>");
        for (int i = 0; i < record->recorder->cells; i++) {
            plmi_text_printf(out, "<o2sensor id=\"cell_%d\"><name>%d</name></o2sensor>", i + 1, i + 1);
        }
        plmi_text_puts(out, "</rebreather>");
    }
    plmi_text_puts(out, "</equipment></owner></diver>\n");
}

static const char *mode_word(enum plm_mode mode)
{
    static const char *const words[] = {"opencircuit", "closedcircuit", "semiclosedcircuit"};
    return words[mode];
}

static void write_settings(struct plmi_text *out, const struct gen_record *record, size_t i, struct gen_mixes *mixes)
{
    const struct gen_event *event = &record->events[record->samples[i].event];
    const struct gen_event *before = i > 0 ? &record->events[record->samples[i - 1].event] : NULL;
    if (before == NULL || before->mode != event->mode) {
        plmi_text_printf(out, "<divemode type=\"%s\"/>", mode_word(event->mode));
    }
    int mix = mix_index(mixes, &event->mix);
    if (before == NULL || mix_index(mixes, &before->mix) != mix) {
        plmi_text_printf(out, "<switchmix ref=\"mix_%d\"/>", mix + 1);
    }
    if (!isnan(event->setpoint_bar)) {
        plmi_text_puts(out, "<setpo2 setby=\"user\">");
        gen_write_number(out, pascal(event->setpoint_bar), 0);
        plmi_text_puts(out, "</setpo2>");
    }
}

static void write_waypoints(struct plmi_text *out, const struct gen_record *record, struct gen_mixes *mixes)
{
    int digits = record->recorder->step_m * 10 == floor(record->recorder->step_m * 10) ? 1 : 2;
    for (size_t i = 0; i < record->count; i++) {
        const struct gen_sample *sample = &record->samples[i];
        plmi_text_puts(out, "<waypoint>");
        tag_number(out, "depth", sample->depth_m, digits);
        tag_number(out, "divetime", sample->time_s, 0);
        tag_number(out, "temperature", sample->temp_c + 273.15, 2);
        if (sample->changed) {
            write_settings(out, record, i, mixes);
        }
        for (int cell = 0; cell < record->recorder->cells; cell++) {
            if (!isnan(sample->cell_bar[cell])) {
                plmi_text_printf(out, "<measuredpo2 ref=\"cell_%d\">", cell + 1);
                gen_write_number(out, pascal(sample->cell_bar[cell]), 0);
                plmi_text_puts(out, "</measuredpo2>");
            }
        }
        plmi_text_puts(out, "</waypoint>\n");
    }
}

static void write_plan(struct plmi_text *out, const struct gen_record *plan, struct gen_mixes *mixes)
{
    plmi_text_printf(out, "<plannedprofile startdivemode=\"%s\" startmix=\"mix_%d\">\n",
                     mode_word(plan->events[0].mode), mix_index(mixes, &plan->events[0].mix) + 1);
    write_waypoints(out, plan, mixes);
    plmi_text_puts(out, "</plannedprofile>\n");
}

static double greatest_m(const struct gen_record *record)
{
    double greatest = 0;
    for (size_t i = 0; i < record->count; i++) {
        greatest = fmax(greatest, record->samples[i].depth_m);
    }
    return greatest;
}

static void write_interval(struct plmi_text *out, const struct gen_record *record, const struct gen_record *before)
{
    plmi_text_puts(out, "<surfaceintervalbeforedive>");
    if (before == NULL) {
        plmi_text_puts(out, "<infinity/>");
    } else {
        double since_s = (double)(record->start_ms - before->start_ms) / 1000;
        tag_number(out, "passedtime", since_s - before->samples[before->count - 1].time_s, 0);
    }
    plmi_text_puts(out, "</surfaceintervalbeforedive>");
}

void gen_uddf_dive(struct plmi_text *out, const struct gen_record *record, int number, const struct gen_record *before,
                   const struct gen_record *plan, struct gen_mixes *mixes)
{
    plmi_text_printf(out, "<dive id=\"dive_%d\">\n<informationbeforedive>", number);
    plmi_text_printf(out, "<divenumber>%d</divenumber><datetime>", number);
    gen_write_stamp(out, record->start_ms, record->zone_min);
    plmi_text_puts(out, "</datetime>");
    write_interval(out, record, before);
    if (record->dive->surface_bar > 0) {
        tag_number(out, "surfacepressure", record->dive->surface_bar * 1e5, 0);
    }
    plmi_text_puts(out, "\n");
    if (plan != NULL) {
        write_plan(out, plan, mixes);
    }
    plmi_text_puts(out, "</informationbeforedive>\n<samples>\n");
    write_waypoints(out, record, mixes);
    plmi_text_puts(out, "</samples>\n<informationafterdive>");
    tag_number(out, "greatestdepth", greatest_m(record), 2);
    tag_number(out, "diveduration", record->samples[record->count - 1].time_s, 0);
    plmi_text_puts(out, "</informationafterdive>\n</dive>\n");
}

void gen_uddf_begin(struct plmi_text *out, const struct gen_record *record, const struct gen_mixes *mixes)
{
    write_head(out, record, "3.2.1", " xmlns=\"http://www.streit.cc/uddf/3.2/\"");
    write_diver(out, record);
    write_mixes(out, mixes);
    plmi_text_puts(out, "<profiledata>\n<repetitiongroup id=\"group_1\">\n");
}

void gen_uddf_end(struct plmi_text *out)
{
    plmi_text_puts(out, "</repetitiongroup>\n</profiledata>\n</uddf>\n");
}

void gen_write_uddf(struct plmi_text *out, const struct gen_record *records, int count, const struct gen_record *plans)
{
    struct gen_mixes mixes = {.count = 0};
    for (int i = 0; i < count; i++) {
        gen_mixes_take(&mixes, records[i].dive);
    }
    gen_uddf_begin(out, records, &mixes);
    for (int i = 0; i < count; i++) {
        gen_uddf_dive(out, &records[i], i + 1, i > 0 ? &records[i - 1] : NULL, plans != NULL ? &plans[i] : NULL,
                      &mixes);
    }
    gen_uddf_end(out);
}

/* Date and clock as the older version has them. */
static void write_date(struct plmi_text *out, int64_t local_ms)
{
    int year, month, day;
    int64_t days = local_ms / 86400000;
    int minutes = (int)(local_ms % 86400000 / 60000);
    plmi_clock_date(days, &year, &month, &day);
    plmi_text_printf(out, "<date><year>%d</year><month>%d</month><day>%d</day></date>", year, month, day);
    plmi_text_printf(out, "<time><hour>%d</hour><minute>%d</minute></time>\n", minutes / 60, minutes % 60);
}

void gen_write_uddf_2(struct plmi_text *out, const struct gen_record *records, int count)
{
    struct gen_mixes mixes = {.count = 0};
    for (int i = 0; i < count; i++) {
        gen_mixes_take(&mixes, records[i].dive);
    }
    write_head(out, records, "2.2.0", "");
    write_mixes(out, &mixes);
    plmi_text_puts(out, "<profiledata>\n<repetitiongroup id=\"group_1\">\n");
    for (int i = 0; i < count; i++) {
        const struct gen_record *record = &records[i];
        plmi_text_printf(out, "<dive id=\"dive_%d\">", i + 1);
        write_date(out, record->start_ms);
        plmi_text_puts(out, "<surfaceinterval><infinity/></surfaceinterval>");
        tag_number(out, "greatestdepth", greatest_m(record), 2);
        plmi_text_puts(out, "\n<samples>\n");
        for (size_t s = 0; s < record->count; s++) {
            const struct gen_sample *sample = &record->samples[s];
            plmi_text_puts(out, "<waypoint>");
            tag_number(out, "depth", sample->depth_m, 2);
            tag_number(out, "divetime", sample->time_s, 0);
            if (sample->changed) {
                int mix = mix_index(&mixes, &record->events[sample->event].mix);
                plmi_text_printf(out, "<switchmix ref=\"mix_%d\"/>", mix + 1);
            }
            plmi_text_puts(out, "</waypoint>\n");
        }
        plmi_text_puts(out, "</samples>\n</dive>\n");
    }
    gen_uddf_end(out);
}
