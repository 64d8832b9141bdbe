/*
 * The truth of a dive as JSON: what it simply is, what nature did to it, what was planted. Computes nothing of a log.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <string.h>

#include "generate/expedition.h"
#include "generate/field.h"
#include "syntax/json.h"

/* What a dive simply is. Findings of the kind up to `most` are true; within a twentieth of the bound they may be
 * absent. */
static void is_write(struct plmi_json *json, const char *kind, double value, const char *unit, double bound,
                     const char *most)
{
    if (value < bound * 0.95) {
        return;
    }
    plmi_json_object_begin(json, NULL);
    plmi_json_text(json, "kind", kind);
    plmi_json_fixed(json, "value", value, 2);
    plmi_json_text(json, "unit", unit);
    plmi_json_text(json, "most", most);
    plmi_json_bool(json, "sure", value >= bound * 1.05);
    plmi_json_object_end(json);
}

/* The word for a value that has come to bounds, with a twentieth of doubt to the worse. */
static const char *most_of(double value, double caution, double serious)
{
    return value >= serious * 0.95 ? "serious" : value >= caution * 0.95 ? "caution" : "note";
}

struct extremes {
    double depth_m, po2_bar, bottom_po2_bar, density_g_l, narcotic_m, over_points, over_s;
};

static struct extremes extremes_of(const struct gen_lived *lived)
{
    struct extremes most = {.over_points = -100};
    for (size_t i = 0; i < lived->course.count; i++) {
        const struct gen_second *second = &lived->seconds[i];
        most.depth_m = fmax(most.depth_m, lived->course.depth_m[i]);
        most.po2_bar = fmax(most.po2_bar, second->po2_bar);
        if ((double)i < lived->bottom_end_s) {
            most.bottom_po2_bar = fmax(most.bottom_po2_bar, second->po2_bar);
        }
        most.density_g_l = fmax(most.density_g_l, second->density_g_l);
        most.narcotic_m = fmax(most.narcotic_m, second->narcotic_m);
        most.over_points = fmax(most.over_points, second->over_points);
        most.over_s += second->over_points > 1;
    }
    return most;
}

static void oxygen_is_write(struct plmi_json *json, const struct gen_lived *lived, const struct extremes *most)
{
    is_write(json, "cns-single", lived->cns_pct, "%", 80, most_of(lived->cns_pct, 100, 200));
    is_write(json, "cns-day", lived->cns_day_pct, "%", 80, most_of(lived->cns_day_pct, 100, 200));
    is_write(json, "otu-day", lived->otu, "OTU", 850, "caution");
    /* At rest on a stop up to 0.1 bar over the limit is a note; at the bottom 0.05 bar. */
    double stop_bar = most->po2_bar - 1.6, bottom_bar = most->bottom_po2_bar - 1.4;
    const char *word = stop_bar > 0.1 ? "serious" : bottom_bar > 0.05 ? "caution" : "note";
    if (stop_bar > 0.01 || bottom_bar > 0.005) {
        is_write(json, "oxygen-high", most->po2_bar, "bar", most->po2_bar, word);
    }
    if (stop_bar > 0.01) {
        is_write(json, "mix-too-deep", most->po2_bar, "bar", most->po2_bar, word);
    }
}

static void inherent_write(struct plmi_json *json, const struct gen_made *made)
{
    const struct gen_lived *lived = made->lived;
    struct extremes most = extremes_of(lived);
    plmi_json_array_begin(json, "is");
    oxygen_is_write(json, lived, &most);
    if (most.over_points > 1 && isnan(made->busy_from_s)) {
        /* A moment above the ceiling in the swell: under 5 points and a minute it is no more than a note. */
        bool moment = most.over_points < 5 && most.over_s < 60;
        is_write(json, "ceiling-exceeded", most.over_points, "points", most.over_points, moment ? "note" : "caution");
    }
    is_write(json, "gas-density", most.density_g_l, "g/L", 5.2, most_of(most.density_g_l, 6.2, 1e9));
    is_write(json, "narcotic-depth", most.narcotic_m, "m", 40, most_of(most.narcotic_m, 50, 1e9));
    if (lived->counterdiffusion) {
        is_write(json, "counterdiffusion", 1, "", 1, "note");
    }
    if (!isnan(lived->left_loop_s)) {
        is_write(json, "left-loop", 1, "", 1, "note");
    }
    plmi_json_array_end(json);
    plmi_json_object_begin(json, "truth");
    plmi_json_fixed(json, "max_depth_m", most.depth_m, 2);
    plmi_json_fixed(json, "cns_pct", lived->cns_pct, 1);
    plmi_json_fixed(json, "otu", lived->otu, 1);
    plmi_json_fixed(json, "max_po2_bar", most.po2_bar, 3);
    plmi_json_fixed(json, "max_density_g_l", most.density_g_l, 2);
    plmi_json_fixed(json, "max_narcotic_m", most.narcotic_m, 1);
    plmi_json_fixed(json, "gradient_over_points", most.over_points, 2);
    plmi_json_fixed(json, "gradient_over_1_point_s", most.over_s, 0);
    plmi_json_fixed(json, "bottom_end_s", lived->bottom_end_s - made->record->begin_s, 0);
    plmi_json_fixed(json, "surfaced_s", lived->surfaced_s - made->record->begin_s, 0);
    plmi_json_fixed(json, "owed_min", lived->owed_min, 2);
    plmi_json_object_end(json);
}

static void nature_write(struct plmi_json *json, const struct gen_field_dive *field)
{
    const struct gen_nature *nature = &field->nature;
    plmi_json_object_begin(json, "nature");
    plmi_json_fixed(json, "wave_m", nature->wave_m, 2);
    plmi_json_fixed(json, "wave_s", nature->wave_s, 1);
    plmi_json_fixed(json, "sag_low_m", nature->sag_low_m, 2);
    plmi_json_fixed(json, "sag_high_m", nature->sag_high_m, 2);
    plmi_json_fixed(json, "late_s", nature->late_s, 0);
    plmi_json_fixed(json, "wander_m", nature->wander_m, 2);
    plmi_json_fixed(json, "unsteady", nature->unsteady, 2);
    plmi_json_fixed(json, "yoyo_m", nature->yoyo_m, 1);
    plmi_json_fixed(json, "last_stop_m", nature->last_stop_m, 0);
    plmi_json_fixed(json, "bob_s", nature->bob_s, 0);
    plmi_json_fixed(json, "ascent_m_min", field->dive.ascent_m_min, 1);
    plmi_json_fixed(json, "shallow_m_min", field->dive.shallow_m_min, 1);
    plmi_json_fixed(json, "last_m_min", field->dive.last_m_min, 1);
    plmi_json_fixed(json, "interval_s", field->recorder.interval_s, 0);
    plmi_json_fixed(json, "jitter_s", field->recorder.jitter_s, 0);
    plmi_json_fixed(json, "change_m", field->recorder.change_m, 1);
    plmi_json_object_end(json);
}

/* Words between spaces as an array. */
static void words_write(struct plmi_json *json, const char *key, const char *words)
{
    plmi_json_array_begin(json, key);
    for (const char *p = words; p != NULL && *p != '\0';) {
        size_t n = strcspn(p, " ");
        char word[64];
        memcpy(word, p, n);
        word[n] = '\0';
        plmi_json_text(json, NULL, word);
        p += n + strspn(p + n, " ");
    }
    plmi_json_array_end(json);
}

static void line_write(struct plmi_json *json, const struct gen_line *line)
{
    plmi_json_object_begin(json, NULL);
    plmi_json_text(json, "fault", line->fault);
    plmi_json_text(json, "kind", line->kind);
    words_write(json, "also", line->also);
    plmi_json_fixed(json, "from_s", line->from_s, 0);
    plmi_json_fixed(json, "to_s", line->to_s, 0);
    plmi_json_fixed(json, "value", line->value, 2);
    plmi_json_text(json, "unit", line->unit);
    plmi_json_fixed(json, "tolerance", line->tolerance, 2);
    words_write(json, "severity", line->severity);
    plmi_json_object_end(json);
}

bool gen_truth_write(const struct gen_made *made, const struct gen_names *names, const struct gen_line *lines,
                     int count, const char *folder)
{
    struct plmi_text text, file;
    plmi_text_init(&text);
    plmi_text_init(&file);
    struct plmi_json json;
    plmi_json_init(&json, &text, 2);
    plmi_json_object_begin(&json, NULL);
    plmi_json_text(&json, "name", names->name);
    plmi_json_text(&json, "dive", gen_kind_word(made->field->kind));
    plmi_json_text(&json, "log", names->log);
    plmi_json_text(&json, "card", names->card);
    plmi_json_text(&json, "plan", names->plan);
    plmi_json_text(&json, "flat", names->flat);
    plmi_json_text(&json, "second", names->second);
    inherent_write(&json, made);
    plmi_json_array_begin(&json, "planted");
    for (int i = 0; i < count; i++) {
        line_write(&json, &lines[i]);
    }
    plmi_json_array_end(&json);
    nature_write(&json, made->field);
    plmi_json_object_end(&json);
    plmi_text_puts(&text, "\n");
    plmi_text_printf(&file, "%s.truth.json", names->name);
    bool done = !text.failed && !file.failed && gen_file_write(&text, folder, file.bytes);
    plmi_text_free(&text);
    plmi_text_free(&file);
    return done;
}
