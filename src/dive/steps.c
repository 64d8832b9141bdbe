/*
 * The steps that a record shows: of depth, and of time. Pure.
 * SPDX-License-Identifier: MIT
 */
#include "dive/steps.h"

#include <math.h>
#include <stdlib.h>

/* Steps by which recorders show depth [m], coarsest first; feet among them. Common practice, no source. */
static const double STEPS_M[] = {1.0, 0.5, 0.3048, 0.25, 0.2, 0.1, 0.05, 0.03048, 0.02, 0.01, 0.005, 0.001};
/* Fewer changes of depth than this say nothing about the step. */
#define CHANGES_NEEDED 12

static bool fits(double depth_m, double step_m)
{
    const double slip_m = 2e-6; /* of converted units */
    return fabs(depth_m - step_m * nearbyint(depth_m / step_m)) < slip_m;
}

double plmi_depth_step_m(const struct plm_sample *samples, size_t count)
{
    const size_t steps = sizeof STEPS_M / sizeof STEPS_M[0];
    size_t step = 0;
    size_t changes = 0;
    for (size_t i = 0; i < count && step < steps; i++) {
        if (samples[i].line == 0) {
            continue; /* made up between recorded ones */
        }
        changes += i > 0 && samples[i].depth_m != samples[i - 1].depth_m;
        if (!fits(samples[i].depth_m, STEPS_M[step])) {
            /* A step that failed earlier fails for ever, so going back to the first sample finds the next that fits
             * all. */
            step++;
            i = (size_t)-1;
            changes = 0;
        }
    }
    return step < steps && changes >= CHANGES_NEEDED ? STEPS_M[step] : (double)NAN;
}

static void swap(int64_t *a, int64_t *b)
{
    int64_t held = *a;
    *a = *b;
    *b = held;
}

/* The value that would stand at place k if items were sorted (quickselect, middle as pivot). */
static int64_t select_kth(int64_t *items, size_t count, size_t k)
{
    size_t low = 0;
    size_t high = count - 1;
    while (low < high) {
        int64_t pivot = items[low + (high - low) / 2];
        size_t i = low;
        size_t j = high;
        while (i <= j) {
            while (items[i] < pivot) {
                i++;
            }
            while (items[j] > pivot) {
                j--;
            }
            if (i <= j) {
                swap(&items[i], &items[j]);
                i++;
                if (j == 0) {
                    break;
                }
                j--;
            }
        }
        if (k <= j) {
            high = j;
        } else if (k >= i) {
            low = i;
        } else {
            break;
        }
    }
    return items[k];
}

int64_t plmi_usual_step_ms(const struct plm_sample *samples, size_t count)
{
    if (count < 2) {
        return 0;
    }
    /* The median of at most this many steps, spread over the dive, is as good as that of all. */
    const size_t most = 4096;
    size_t stride = (count - 1 + most - 1) / most;
    int64_t *steps = malloc(((count - 1) / stride + 1) * sizeof *steps);
    if (steps == NULL) {
        return -1;
    }
    size_t n = 0;
    for (size_t i = 1; i < count; i += stride) {
        steps[n++] = samples[i].time_ms - samples[i - 1].time_ms;
    }
    int64_t median_ms = select_kth(steps, n, n / 2);
    free(steps);
    return median_ms;
}
