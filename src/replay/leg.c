/*
 * Cutting a leg at its clips: a loop PO2 that ambient pressure can't hold, and inert gas that runs out.
 * Must not step tissues.
 * SPDX-License-Identifier: MIT
 */
#include "replay/leg.h"

#include <math.h>

static bool by_mix(const struct plmi_recorded_leg *leg)
{
    return (leg->loop.from & PLMI_OXYGEN_BY_MIX) != 0;
}

static struct plmi_moment moment_at(const struct plmi_recorded_leg *leg, double ambient_bar, double loop_bar)
{
    struct plmi_moment moment = {.ambient_bar = ambient_bar};
    if (by_mix(leg)) {
        moment.inspired = plmi_inspired_open(leg->mix, ambient_bar, leg->vapour_bar);
        moment.density_g_l = plmi_density_open_g_l(leg->mix, ambient_bar);
    } else {
        moment.inspired = plmi_inspired_loop(leg->mix, ambient_bar, loop_bar, leg->vapour_bar);
        moment.density_g_l = plmi_density_loop_g_l(leg->mix, ambient_bar, loop_bar);
    }
    return moment;
}

double plmi_moment_n2_bar(const struct plmi_recorded_leg *leg, const struct plmi_moment *moment)
{
    if (by_mix(leg)) {
        return moment->ambient_bar * leg->mix->n2_frac;
    }
    double inert_frac = leg->mix->n2_frac + leg->mix->he_frac;
    double inert_bar = moment->ambient_bar - moment->inspired.o2_bar;
    return inert_bar * leg->mix->n2_frac / inert_frac;
}

struct plmi_moment plmi_leg_start(const struct plmi_recorded_leg *leg)
{
    return moment_at(leg, leg->ambient_start_bar, leg->loop.start_bar);
}

/* Adds the share of the leg at which a line from `start` to `end` crosses zero, if inside. */
static int add_crossing(double *shares, int count, double start, double end)
{
    if ((start < 0.0 && end > 0.0) || (start > 0.0 && end < 0.0)) {
        shares[count++] = start / (start - end);
    }
    return count;
}

/* Shares 0..1 of the leg at which a clip sets in or ends, in order; none on open circuit. */
static int crossings_find(double shares[2], const struct plmi_recorded_leg *leg)
{
    if (by_mix(leg)) {
        return 0;
    }
    double start_bar = leg->ambient_start_bar - leg->loop.start_bar;
    double end_bar = leg->ambient_end_bar - leg->loop.end_bar;
    int count = add_crossing(shares, 0, start_bar, end_bar);
    count = add_crossing(shares, count, start_bar - leg->vapour_bar, end_bar - leg->vapour_bar);
    if (count == 2 && shares[0] > shares[1]) {
        double swapped = shares[0];
        shares[0] = shares[1];
        shares[1] = swapped;
    }
    return count;
}

/* On the line from start to end, and not beside it by rounding: a value that does not change is the same to the last
 * bit. */
static double between(double start, double end, double share)
{
    double value = (1.0 - share) * start + share * end;
    return fmax(fmin(start, end), fmin(fmax(start, end), value));
}

int plmi_pieces_find(struct plmi_piece pieces[PLMI_PIECES_MAX], const struct plmi_recorded_leg *leg)
{
    double shares[2];
    int cuts = crossings_find(shares, leg);
    double from_share = 0.0;
    struct plmi_moment from = plmi_leg_start(leg);
    for (int i = 0; i <= cuts; i++) {
        double to_share = i < cuts ? shares[i] : 1.0;
        double rest = 1.0 - to_share;
        double ambient_bar = rest * leg->ambient_start_bar + to_share * leg->ambient_end_bar;
        double loop_bar = between(leg->loop.start_bar, leg->loop.end_bar, to_share);
        pieces[i].dt_s = (to_share - from_share) * leg->dt_s;
        pieces[i].start = from;
        pieces[i].end = from = moment_at(leg, ambient_bar, loop_bar);
        from_share = to_share;
    }
    return cuts + 1;
}
