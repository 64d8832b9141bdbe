/*
 * Dives made by hand for tests.
 * Must not compute what a test expects.
 * SPDX-License-Identifier: MIT
 */
#include "support/made_dive.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

static void must(int good, const char *what)
{
    if (!good) {
        fprintf(stderr, "a made dive: %s\n", what);
        exit(EXIT_FAILURE);
    }
}

struct made_dive made_start(double surface_bar)
{
    struct made_dive made = {.rules = plm_rules_default()};
    struct plm_rules sparse = made.rules;
    /* made of turning points, as long as a test wants, and as it says */
    sparse.gap_max_min = sparse.dive_max_h = sparse.spike_m_min = sparse.doubt_m_min = 1e6;
    made.builder = plm_dive_builder_new("made", &sparse, NULL);
    must(made.builder != NULL, "no builder");
    struct plm_dive_info *info = plm_dive_builder_info(made.builder);
    info->surface_bar = surface_bar;
    info->gas_known = true;
    info->index = 1;
    return made;
}

static void mix_set(struct made_dive *made, double o2_frac, double he_frac)
{
    uint32_t mix;
    must(plm_dive_builder_mix_find(made->builder, o2_frac, he_frac, made->line, &mix) == PLM_STATUS_OK, "mix");
    plm_dive_builder_switch(made->builder, mix, made->line);
}

void made_open(struct made_dive *made, double o2_frac, double he_frac)
{
    mix_set(made, o2_frac, he_frac);
    plm_dive_builder_mode(made->builder, PLM_MODE_OPEN, made->line);
}

void made_loop(struct made_dive *made, double o2_frac, double he_frac, double setpoint_bar)
{
    mix_set(made, o2_frac, he_frac);
    plm_dive_builder_mode(made->builder, PLM_MODE_CLOSED, made->line);
    plm_dive_builder_setpoint(made->builder, setpoint_bar, made->line);
}

void made_semiclosed(struct made_dive *made, double o2_frac, double he_frac)
{
    mix_set(made, o2_frac, he_frac);
    plm_dive_builder_mode(made->builder, PLM_MODE_SEMICLOSED, made->line);
}

void made_setpoint(struct made_dive *made, double setpoint_bar)
{
    plm_dive_builder_setpoint(made->builder, setpoint_bar, made->line);
}

void made_carried(struct made_dive *made, double o2_frac, double he_frac)
{
    uint32_t mix;
    must(plm_dive_builder_mix_find(made->builder, o2_frac, he_frac, made->line, &mix) == PLM_STATUS_OK, "mix");
    plm_dive_builder_carry(made->builder, mix, PLM_MIX_USE_BAILOUT, (double)NAN);
}

struct plm_sample made_blank(double time_s, double depth_m)
{
    struct plm_sample sample = {.time_ms = llround(time_s * 1000.0), .depth_m = depth_m};
    sample.temp_c = sample.po2_bar = (double)NAN;
    for (int i = 0; i < PLM_CELLS; i++) {
        sample.cell_bar[i] = (double)NAN;
    }
    return sample;
}

void made_add(struct made_dive *made, const struct plm_sample *sample)
{
    struct plm_sample added = *sample;
    added.line = ++made->line;
    must(plm_dive_builder_sample(made->builder, &added) == PLM_STATUS_OK, "sample");
}

void made_sample(struct made_dive *made, double time_s, double depth_m)
{
    struct plm_sample sample = made_blank(time_s, depth_m);
    made_add(made, &sample);
}

void made_sample_po2(struct made_dive *made, double time_s, double depth_m, double po2_bar)
{
    struct plm_sample sample = made_blank(time_s, depth_m);
    sample.po2_bar = po2_bar;
    made_add(made, &sample);
}

void made_sample_cells(struct made_dive *made, double time_s, double depth_m, double a_bar, double b_bar, double c_bar)
{
    struct plm_sample sample = made_blank(time_s, depth_m);
    sample.cell_bar[0] = a_bar;
    sample.cell_bar[1] = b_bar;
    sample.cell_bar[2] = c_bar;
    made_add(made, &sample);
}

struct plm_dive *made_finish(struct made_dive *made)
{
    struct plm_dive *dive = NULL;
    must(plm_dive_builder_finish(made->builder, &dive) == PLM_STATUS_OK && dive != NULL, "not finished");
    made->builder = NULL;
    return dive;
}

struct plm_trace *made_replay(const struct plm_dive *dive, const struct plm_rules *rules)
{
    struct plm_replay_options options = plm_replay_options_default(rules);
    struct plm_trace *trace = NULL;
    must(plm_replay(&trace, dive, &options, NULL) == PLM_STATUS_OK && trace != NULL, "not replayed");
    return trace;
}
