/*
 * How long compartments take to come to rest on air at the surface. Pure.
 * Must not say what rest is good for.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <stddef.h>

#include <plimsoll/tissue.h>

/* What a compartment holds beyond saturation after t_s: n2 exp(-n2_k t) + he exp(-he_k t). */
struct excess {
    double n2_bar, he_bar, n2_k_s, he_k_s;
};

static double excess_bar(const struct excess *excess, double t_s)
{
    return excess->n2_bar * exp(-excess->n2_k_s * t_s) + excess->he_bar * exp(-excess->he_k_s * t_s);
}

/* The moment from which the excess only shrinks in size: helium over saturation, nitrogen under it and slower, pass
 * zero and turn. */
static double turn_s(const struct excess *excess)
{
    double falling = excess->he_bar * excess->he_k_s, rising = -excess->n2_bar * excess->n2_k_s;
    if (!(falling > 0 && rising > 0 && falling > rising)) {
        return 0;
    }
    return log(falling / rising) / (excess->he_k_s - excess->n2_k_s);
}

/* The moment within [from_s, to_s] at which the excess, which only shrinks there, comes down to limit_bar. */
static double reach_s(const struct excess *excess, double from_s, double to_s, double limit_bar)
{
    for (int i = 0; i < 200 && to_s - from_s > 1e-9 * to_s; i++) {
        double middle_s = 0.5 * (from_s + to_s);
        if (fabs(excess_bar(excess, middle_s)) > limit_bar) {
            from_s = middle_s;
        } else {
            to_s = middle_s;
        }
    }
    return to_s;
}

static double rest_s(const struct excess *excess, double limit_bar)
{
    double turned_s = turn_s(excess), size_bar = fabs(excess->n2_bar) + fabs(excess->he_bar);
    if (fabs(excess_bar(excess, turned_s)) > limit_bar) {
        /* Behind this both terms together are smaller than the limit. */
        double enough_s = log(size_bar / limit_bar) / fmin(excess->n2_k_s, excess->he_k_s);
        return reach_s(excess, turned_s, fmax(enough_s, turned_s), limit_bar);
    }
    return excess_bar(excess, 0) > limit_bar ? reach_s(excess, 0, turned_s, limit_bar) : 0;
}

double plm_tissue_rest_s(const struct plm_tissue *tissue, int variant, double saturated_bar, double frac)
{
    const struct plm_zhl16 *model = plm_zhl16_get(variant);
    double longest_s = 0;
    if (model == NULL || !(saturated_bar > 0 && frac > 0)) {
        return (double)NAN;
    }
    for (int i = 0; i < PLM_COMPARTMENTS; i++) {
        struct excess excess = {tissue->n2_bar[i] - saturated_bar, tissue->he_bar[i],
                                log(2) / (60 * model->n2_half_time_min[i]), log(2) / (60 * model->he_half_time_min[i])};
        if (!isfinite(excess.n2_bar) || !isfinite(excess.he_bar)) {
            return (double)NAN;
        }
        longest_s = fmax(longest_s, rest_s(&excess, frac * saturated_bar));
    }
    return longest_s;
}
