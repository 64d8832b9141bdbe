/*
 * What a schedule costs from states along two deep dives. Prints; asserts no time.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include "ascent/schedule.h"
#include "gas/mix.h"
#include "tissue/tissue.h"

/* [s] of the processor, since some moment. */
static double clock_s(void)
{
    struct timespec now;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
    return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

/* Saturated at the surface, down at 20 m/min, at depth_m until bottom_s, on the gas of `from`. */
static void go_down(struct plmi_ascent_from *from, double depth_m, double bottom_s)
{
    const struct plm_zhl16 *model = plm_zhl16_get(2);
    struct plmi_decay decay;
    plmi_decay_init(&decay, model);
    from->surface_bar = 1.01325;
    from->water_kg_m3 = 1019.7162;
    from->anchor_bar = (double)NAN;
    from->depth_m = depth_m;
    from->tissue = plm_tissue_saturated(1.01325, 0.0627, 0.7902);
    double last_m = 0.0;
    for (double t_s = 1.0; t_s <= bottom_s; t_s += 1.0) {
        double next_m = fmin(depth_m, t_s / 3.0);
        struct plmi_inspired at[2];
        for (int i = 0; i < 2; i++) {
            double ambient_bar = plm_ambient_bar(from->surface_bar, i == 0 ? last_m : next_m, from->water_kg_m3);
            at[i] = from->gas.mode == PLM_MODE_CLOSED
                        ? plmi_inspired_loop(&from->gas.mix, ambient_bar, from->gas.setpoint_bar, 0.0627)
                        : plmi_inspired_open(&from->gas.mix, ambient_bar, 0.0627);
        }
        struct plmi_leg leg = {1.0, at[0].n2_bar, at[1].n2_bar, at[0].he_bar, at[1].he_bar};
        plmi_tissue_step(&from->tissue, &leg, &decay);
        last_m = next_m;
    }
}

static void measure(const char *title, const struct plmi_ascent_from *from)
{
    const struct plm_zhl16 *model = plm_zhl16_get(2);
    struct plm_rules rules = plm_rules_default();
    struct plmi_schedule schedule;
    plmi_schedule_find(&schedule, from, model, &rules);
    const int runs = 2000;
    double sum = 0.0, no_stop = 0.0;
    double start_s = clock_s();
    for (int i = 0; i < runs; i++) {
        sum += plmi_tts_s(from, model, &rules);
    }
    double middle_s = clock_s();
    for (int i = 0; i < runs; i++) {
        no_stop += plmi_no_stop_s(from, model, &rules);
    }
    double end_s = clock_s();
    printf("%-40s %2d stops, to surface %7.1f s, no stop %8.1f s: %6.2f us, %6.2f us\n", title, schedule.stop_count,
           sum / runs, no_stop / runs, 1e6 * (middle_s - start_s) / runs, 1e6 * (end_s - middle_s) / runs);
    if (getenv("PLM_BENCH_STOPS") != NULL) {
        for (int i = 0; i < schedule.stop_count; i++) {
            const struct plmi_stop *stop = &schedule.stops[i];
            printf("  %5.1f m %8.2f s  %.2f/%.2f\n", stop->depth_m, stop->wait_s, stop->mix_o2_frac, stop->mix_he_frac);
        }
    }
}

int main(void)
{
    static struct plmi_ascent_from loop = {
        .gas = {.mode = PLM_MODE_CLOSED, .mix = {0.10, 0.60, 0.30}, .setpoint_bar = 1.3}};
    static struct plmi_ascent_from open = {.gas = {.mode = PLM_MODE_OPEN,
                                                   .mix = {0.15, 0.55, 0.30},
                                                   .carried_count = 3,
                                                   .carried = {{0.15, 0.55, 0.30}, {0.50, 0.0, 0.50}, {1.0, 0.0, 0.0}},
                                                   .carried_po2_max_bar = {(double)NAN, (double)NAN, (double)NAN}}};
    go_down(&loop, 115.0, 27.0 * 60.0);
    measure("loop, 115 m, 27 min", &loop);
    go_down(&open, 75.0, 25.0 * 60.0);
    measure("open, 75 m, 25 min, two deco mixes", &open);
    open.gas.carried_count = 0;
    open.gas.mix = (struct plm_mix){0.21, 0.0, 0.79};
    go_down(&open, 18.0, 20.0 * 60.0);
    measure("open, 18 m, 20 min, air", &open);
    return EXIT_SUCCESS;
}
