/*
 * Dive cards that lie beside a log and tell what it lacks; plimsoll-card(5). Must not tell more than a diver would.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "generate/writers.h"

static void line(struct plmi_text *out, const char *key, const char *value)
{
    if (value[0] != '\0') {
        plmi_text_printf(out, "%s = %s\n", key, value);
    }
}

void gen_write_card(struct plmi_text *out, const struct gen_record *records, int count)
{
    (void)count;
    plmi_text_puts(out, "[dive]\n");
    line(out, "diver", records->dive->diver);
    plmi_text_puts(out, "start = ");
    gen_write_stamp(out, records->start_ms, records->zone_min);
    plmi_text_puts(out, "\n");
    line(out, "recorder", records->recorder->name);
    line(out, "plan", records->plan_file);
}

static void write_mix(struct plmi_text *out, const struct plm_mix *mix)
{
    gen_write_number(out, mix->o2_frac * 100, 0);
    plmi_text_puts(out, "/");
    gen_write_number(out, mix->he_frac * 100, 0);
}

static bool same_mix(const struct plm_mix *a, const struct plm_mix *b)
{
    return a->o2_frac == b->o2_frac && a->he_frac == b->he_frac;
}

/* A mix by the name that it has in the card: "bottom", or the depth from which it is for. */
static void write_mix_name(struct plmi_text *out, const struct gen_dive *dive, const struct plm_mix *mix)
{
    for (int i = 0; i < dive->deco_count; i++) {
        if (same_mix(&dive->deco[i].mix, mix)) {
            plmi_text_puts(out, "from ");
            gen_write_number(out, dive->deco[i].depth_m, 0);
            return;
        }
    }
    plmi_text_puts(out, "bottom");
}

static void write_mixes(struct plmi_text *out, const struct gen_dive *dive)
{
    bool loop = dive->mode == PLM_MODE_CLOSED;
    plmi_text_puts(out, "\n[mixes]\nbottom = ");
    write_mix(out, &dive->mix);
    plmi_text_puts(out, loop ? " diluent\n" : "\n");
    for (int i = 0; i < dive->deco_count; i++) {
        write_mix_name(out, dive, &dive->deco[i].mix);
        plmi_text_puts(out, " = ");
        write_mix(out, &dive->deco[i].mix);
        plmi_text_puts(out, loop ? " bailout\n" : " deco\n");
    }
}

/* What changes at a sample. before: NULL at the start. */
static void write_change(struct plmi_text *out, const struct gen_dive *dive, long time_s,
                         const struct gen_event *before, const struct gen_event *event)
{
    plmi_text_printf(out, "\n[at %ld:%02ld]\n", time_s / 60, time_s % 60);
    if (before == NULL || before->mode != event->mode) {
        line(out, "mode", plm_mode_text(event->mode));
    }
    if (before == NULL || !same_mix(&before->mix, &event->mix)) {
        plmi_text_puts(out, "mix = ");
        write_mix_name(out, dive, &event->mix);
        plmi_text_puts(out, "\n");
    }
    if (!isnan(event->setpoint_bar)) {
        plmi_text_puts(out, "setpoint_bar = ");
        gen_write_number(out, event->setpoint_bar, 2);
        plmi_text_puts(out, "\n");
    }
}

void gen_write_card_gas(struct plmi_text *out, const struct gen_record *records, int count)
{
    gen_write_card(out, records, count);
    write_mixes(out, records->dive);
    const struct gen_event *before = NULL;
    for (size_t i = 0; i < records->count; i++) {
        const struct gen_sample *sample = &records->samples[i];
        if (sample->changed) {
            const struct gen_event *event = &records->events[sample->event];
            write_change(out, records->dive, (long)sample->time_s, before, event);
            before = event;
        }
    }
}
