/*
 * For fuzzers of whole inputs: what is done with a dive that was read. It is written as a log and read again; dives of
 * one input are debriefed one after the other, a card laid over them. Must not look at formats.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_FUZZ_IMPORT_USES_H
#define PLM_FUZZ_IMPORT_USES_H

#include <plimsoll/debrief.h>
#include <plimsoll/export.h>

#include "base/text.h"
#include "fuzz/import_input.h"
#include "io/memory_sink.h"

/* More samples than this only take long. */
#define IMPORT_SAMPLES_MOST 2000

/* A number that depends on all bytes: FNV-1a, constants as in draft-eastlake-fnv. */
static inline uint32_t import_hash(const unsigned char *bytes, size_t size)
{
    uint32_t hash = 2166136261U;
    for (size_t i = 0; i < size; i++) {
        hash = (uint32_t)(((uint64_t)hash ^ bytes[i]) * 16777619U & UINT32_MAX);
    }
    return hash;
}

static inline bool import_long(const struct plm_dive *dive)
{
    size_t count;
    (void)plm_dive_samples(dive, &count);
    return count > IMPORT_SAMPLES_MOST;
}

static inline bool import_same(double a, double b)
{
    return (isnan(a) && isnan(b)) || !(a < b || a > b || isnan(a) || isnan(b));
}

/* Mixes are told apart from this on. */
static inline bool import_same_mix(const struct plm_mix *a, const struct plm_mix *b)
{
    return fabs(a->o2_frac - b->o2_frac) < 1e-6 && fabs(a->he_frac - b->he_frac) < 1e-6;
}

/* The samples of a dive and of its copy are the same, with what was breathed. */
static inline void import_hold_same(const struct plm_dive *dive, const struct plm_dive *again)
{
    size_t count, count_again, ignored;
    const struct plm_sample *a = plm_dive_samples(dive, &count), *b = plm_dive_samples(again, &count_again);
    const struct plm_setting *x = plm_dive_settings(dive, &ignored), *y = plm_dive_settings(again, &ignored);
    const struct plm_dive_mix *m = plm_dive_mixes(dive, &ignored), *n = plm_dive_mixes(again, &ignored);
    import_hold(count == count_again);
    for (size_t i = 0; i < count; i++) {
        const struct plm_setting *s = &x[a[i].setting], *t = &y[b[i].setting];
        import_hold(a[i].time_ms == b[i].time_ms && import_same(a[i].depth_m, b[i].depth_m));
        import_hold(import_same(a[i].temp_c, b[i].temp_c) && import_same(a[i].po2_bar, b[i].po2_bar));
        import_hold(s->mode == t->mode && import_same(s->setpoint_bar, t->setpoint_bar));
        import_hold(import_same_mix(&m[s->mix].mix, &n[t->mix].mix));
        for (int cell = 0; cell < PLM_CELLS; cell++) {
            import_hold(import_same(a[i].cell_bar[cell], b[i].cell_bar[cell]));
        }
    }
}

/* What is told of a dive and of its copy as a whole is the same. */
static inline void import_hold_told(const struct plm_dive *dive, const struct plm_dive *again)
{
    const struct plm_dive_info *a = plm_dive_info_get(dive), *b = plm_dive_info_get(again);
    import_hold(a->start.known == b->start.known && a->start.local_ms == b->start.local_ms &&
                a->start.has_clock == b->start.has_clock);
    import_hold(a->start.has_zone == b->start.has_zone && a->start.offset_min == b->start.offset_min);
    import_hold(import_same(a->surface_bar, b->surface_bar) && import_same(a->altitude_m, b->altitude_m) &&
                import_same(a->water_kg_m3, b->water_kg_m3));
    import_hold(a->gas_known == b->gas_known && a->mode_known == b->mode_known);
}

/* The dive of a log that was written: one, and as it was. */
static inline void import_read_again(const struct plmi_text *log, const struct plm_dive *dive)
{
    struct plm_rules rules = plm_rules_default();
    struct plm_import_options options = {.rules = &rules};
    struct import_told told = {0};
    struct plm_diag_sink sink = {import_count, &told};
    struct plm_source *source = NULL;
    struct plm_import *import = NULL;
    struct plm_dive *again = NULL;
    import_hold(plm_source_open_memory(&source, log->bytes, log->count, "log", &rules, &sink) == PLM_STATUS_OK);
    import_hold(plm_import_open(&import, source, &options, &sink) == PLM_STATUS_OK);
    import_hold(plm_import_next(import, &again) == PLM_STATUS_OK);
    import_hold_dive(again, &rules);
    import_hold_same(dive, again);
    import_hold_told(dive, again);
    plm_dive_free(again);
    import_hold(plm_import_next(import, &again) == PLM_STATUS_END);
    plm_import_free(import);
    plm_source_free(source);
}

static inline void import_hold_export(const struct plm_dive *dive, const char *format)
{
    struct import_told told = {0};
    const struct plm_diag_sink diag = {import_count, &told};
    struct plmi_text log;
    struct plm_export *export = NULL;
    plmi_text_init(&log);
    struct plm_sink sink = plmi_memory_sink(&log);
    import_hold(plm_export_open(&export, format, &sink, &diag) == PLM_STATUS_OK);
    import_hold(plm_export_add(export, dive) == PLM_STATUS_OK && plm_export_finish(export) == PLM_STATUS_OK);
    plm_export_free(export);
    import_read_again(&log, dive);
    plmi_text_free(&log);
}

/* Every dive of an input in a format that can be written. */
static inline void import_export(const void *bytes, size_t size, const struct plm_import_options *options,
                                 const char *format)
{
    struct plm_source *source = NULL;
    struct plm_import *import = NULL;
    struct plm_dive *dive = NULL;
    if (plm_source_open_memory(&source, bytes, size, "fuzz", options->rules, NULL) == PLM_STATUS_OK &&
        plm_import_open(&import, source, options, NULL) == PLM_STATUS_OK) {
        while (plm_import_next(import, &dive) == PLM_STATUS_OK) {
            if (!import_long(dive)) {
                import_hold_export(dive, format);
            }
            plm_dive_free(dive);
        }
    }
    plm_import_free(import);
    plm_source_free(source);
}

static inline struct plm_card *import_card(const struct plm_rules *rules)
{
    static const char TEXT[] = "[dive]\nstart = 2031-05-06T09:30:00+11:00\nsurface_bar = 1.005\nwater = salt\n";
    struct plm_source *source = NULL;
    struct plm_card *card = NULL;
    import_hold(plm_source_open_memory(&source, TEXT, sizeof TEXT - 1, "card", rules, NULL) == PLM_STATUS_OK);
    import_hold(plm_card_read(&card, source, rules, NULL) == PLM_STATUS_OK);
    plm_source_free(source);
    return card;
}

/* Dive after dive with what each leaves to the next, under a card; without schedules, hold and cost, which only take
 * long. */
static inline void import_debrief(const void *bytes, size_t size, const struct plm_import_options *import)
{
    struct plm_log_options reading = plm_log_options_default(import->rules);
    struct plm_debrief_options options = plm_debrief_options_default(import->rules);
    struct import_told told = {0};
    struct plm_diag_sink sink = {import_count, &told};
    struct plm_source *source = NULL;
    struct plm_log *log = NULL;
    struct plm_debrief *debrief = NULL;
    struct plm_debriefed *debriefed = NULL;
    struct plm_card *card = import_card(import->rules);
    reading.import = *import;
    reading.card = card;
    options.schedules = options.decompression = options.review.hold = options.review.cost = false;
    if (plm_source_open_memory(&source, bytes, size, "fuzz", import->rules, &sink) == PLM_STATUS_OK &&
        plm_log_open_source(&log, source, &reading, &sink) == PLM_STATUS_OK &&
        plm_debrief_open(&debrief, log, &options, &sink) == PLM_STATUS_OK) {
        enum plm_status status = PLM_STATUS_OK;
        while ((status = plm_debrief_next(debrief, &debriefed)) == PLM_STATUS_OK) {
            import_hold_dive(debriefed->dive, import->rules);
            plm_debriefed_free(debriefed);
        }
        import_hold(status == PLM_STATUS_END || told.errors > 0);
    }
    plm_debrief_free(debrief);
    plm_log_free(log);
    plm_card_free(card);
    plm_source_free(source);
}

/* Reads an input, and uses it in one more way, which its bytes choose: so the rate stays that of reading. */
static inline void import_use(const void *bytes, size_t size, const struct plm_import_options *options)
{
    import_input(bytes, size, options);
    switch (import_hash(bytes, size) >> 16 & 3) {
    case 0: import_export(bytes, size, options, "uddf"); break;
    case 1: import_export(bytes, size, options, "csv"); break;
    case 2: import_debrief(bytes, size, options); break;
    default: break;
    }
}

#endif
