/*
 * For fuzzers of whole inputs: reads bytes as a log, dive by dive, and holds what every dive must be.
 * Must not look at formats.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_FUZZ_IMPORT_INPUT_H
#define PLM_FUZZ_IMPORT_INPUT_H

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include <plimsoll/import.h>
#include <plimsoll/replay.h>
#include <plimsoll/verdict.h>

struct import_told {
    long errors;
    long losses; /* that say that something was left out */
};

static inline void import_count(void *context, const struct plm_diag *diag)
{
    struct import_told *told = context;
    char line[256];
    told->errors += diag->level == PLM_LEVEL_ERROR;
    told->losses += plm_import_loses(diag);
    (void)plm_diag_format(diag, line, (int)sizeof line);
}

static inline void import_held(int holds, const char *what)
{
    if (!holds) {
        (void)fprintf(stderr, "does not hold: %s\n", what);
        abort();
    }
}
#define import_hold(holds) import_held(holds, #holds)

/* What the contract of a dive promises. */
static inline void import_hold_dive(const struct plm_dive *dive, const struct plm_rules *rules)
{
    size_t count, setting_count, mix_count, event_count;
    const struct plm_sample *samples = plm_dive_samples(dive, &count);
    const struct plm_setting *settings = plm_dive_settings(dive, &setting_count);
    const struct plm_dive_mix *mixes = plm_dive_mixes(dive, &mix_count);
    (void)plm_dive_events(dive, &event_count);
    import_hold(count >= 2 && setting_count >= 1 && mix_count >= 1);
    for (size_t i = 0; i < count; i++) {
        import_hold(i == 0 || samples[i].time_ms >= samples[i - 1].time_ms);
        import_hold(samples[i].depth_m >= 0 && samples[i].depth_m <= rules->depth_max_m);
        import_hold(samples[i].setting < setting_count);
    }
    for (size_t i = 0; i < setting_count; i++) {
        import_hold(settings[i].mix < mix_count);
        import_hold(isnan(settings[i].setpoint_bar) || (settings[i].setpoint_bar > 0 && settings[i].setpoint_bar <= 3));
    }
    for (size_t i = 0; i < mix_count; i++) {
        const struct plm_mix *mix = &mixes[i].mix;
        import_hold(mix->o2_frac > 0 && mix->o2_frac <= 1.02 && mix->he_frac >= -1e-9 && mix->n2_frac >= 0);
        import_hold(fabs(mix->o2_frac + mix->he_frac + mix->n2_frac - 1) < 1e-9);
    }
}

/* Whatever an importer lets through, the replay takes, or says why not. Long dives are left out: they only take long.
 */
static inline void import_hold_replay(const struct plm_dive *dive, const struct plm_rules *rules,
                                      struct import_told *told)
{
    const struct plm_replay_options options = plm_replay_options_default(rules);
    const struct plm_diag_sink sink = {import_count, told};
    struct plm_trace *trace = NULL;
    size_t count;
    (void)plm_dive_samples(dive, &count);
    if (count > 2000) {
        return;
    }
    long errors = told->errors;
    import_hold(plm_replay(&trace, dive, &options, &sink) == PLM_STATUS_OK || told->errors > errors);
    plm_trace_free(trace);
}

static inline void import_walk(struct plm_import *import, const struct plm_rules *rules, struct import_told *told,
                               const struct import_told *read)
{
    struct plm_dive *dive = NULL;
    enum plm_status status;
    (void)plm_import_verdict(import);
    while ((status = plm_import_next(import, &dive)) == PLM_STATUS_OK) {
        import_hold_dive(dive, rules);
        if (plm_dive_plan(dive) != NULL) {
            import_hold_dive(plm_dive_plan(dive), rules);
            import_hold_replay(plm_dive_plan(dive), rules, told);
        }
        import_hold_replay(dive, rules, told);
        plm_dive_free(dive);
    }
    import_hold(status == PLM_STATUS_END || told->errors + read->errors > 0);
    /* What was left out and what was told of it are one. */
    import_hold(plm_import_partial(import) == (read->losses > 0 || status != PLM_STATUS_END));
}

static inline void import_input(const void *bytes, size_t size, const struct plm_import_options *options)
{
    struct import_told told = {0}, read = {0}; /* by source and replay; by the import */
    struct plm_diag_sink sink = {import_count, &told}, reading = {import_count, &read};
    struct plm_source *source = NULL;
    struct plm_import *import = NULL;
    if (plm_source_open_memory(&source, bytes, size, "fuzz", options->rules, &sink) == PLM_STATUS_OK) {
        if (plm_import_open(&import, source, options, &reading) == PLM_STATUS_OK) {
            import_walk(import, options->rules, &told, &read);
        } else {
            import_hold(told.errors + read.errors > 0);
        }
    }
    plm_import_free(import);
    plm_source_free(source);
}

#endif
