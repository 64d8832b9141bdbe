/*
 * The ceiling: the least ambient pressure that the gradient factors allow, exact to the last digits.
 * Must not know of depth or time.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <stddef.h>

#include "tissue/tissue.h"

/* [bar] an anchor nearer to the surface than this counts as none. */
static const double least_anchor_bar = 1e-6;

/* Limits of all compartments: allowed excess over ambient pressure P is a + slope P. */
struct limits {
    double tension_bar[PLM_COMPARTMENTS], a_bar[PLM_COMPARTMENTS], slope[PLM_COMPARTMENTS];
};

/* The line of gradient factors by the height u = P - surface: high + s u up to reach, low beyond. */
struct line {
    double high, low, s, reach_bar;
};

static struct line line_of(const struct plmi_gf *gf)
{
    double reach_bar = gf->anchor_bar - gf->surface_bar;
    struct line line = {gf->high_frac, gf->high_frac, 0.0, 0.0};
    if (reach_bar > least_anchor_bar) {
        line.low = gf->low_frac;
        line.s = (gf->low_frac - gf->high_frac) / reach_bar;
        line.reach_bar = reach_bar;
    }
    return line;
}

double plmi_gf_at(const struct plmi_gf *gf, double ambient_bar)
{
    struct line line = line_of(gf);
    double u = ambient_bar - gf->surface_bar;
    if (u >= line.reach_bar) {
        return line.low;
    }
    return u <= 0.0 ? line.high : line.high + line.s * u;
}

static void limits_find(struct limits *limits, const struct plm_tissue *tissue,
                        const struct plm_zhl16 *model)
{
    for (int i = 0; i < PLM_COMPARTMENTS; i++) {
        double n2_bar = tissue->n2_bar[i], he_bar = tissue->he_bar[i];
        double total_bar = n2_bar + he_bar;
        /* Without any gas the weights are those of nitrogen. */
        double n2_weight = total_bar == 0.0 ? 1.0 : n2_bar;
        double weights = total_bar == 0.0 ? 1.0 : total_bar;
        limits->tension_bar[i] = total_bar;
        limits->a_bar[i] = (model->n2_a_bar[i] * n2_weight + model->he_a_bar[i] * he_bar) / weights;
        limits->slope[i] =
            weights / (model->n2_b[i] * n2_weight + model->he_b[i] * he_bar) - 1.0;
    }
}

/*
 * What a compartment has in hand at the height u, and the least height from u on where it has
 * nothing owing. In hand: f(u) = S + u + GF(u) (excess + slope u) - tension, with excess the allowed
 * excess at the surface S. Up to the anchor f is a quadratic of u, beyond it a rising line.
 */
struct compartment {
    double owing_bar;  /* tension - S */
    double excess_bar; /* a + slope S */
    double slope;
};

static double in_hand_bar(const struct compartment *c, const struct line *line, double u)
{
    double gf = u >= line->reach_bar ? line->low : line->high + line->s * u;
    return u + gf * (c->excess_bar + c->slope * u) - c->owing_bar;
}

static double least_height_bar(const struct compartment *c, const struct line *line, double from)
{
    double f = in_hand_bar(c, line, from);
    if (f >= 0.0) {
        return from;
    }
    if (from < line->reach_bar) {
        double q2 = line->s * c->slope;
        double q1 = 1.0 + line->high * c->slope + line->s * c->excess_bar + 2.0 * q2 * from;
        double discriminant = q1 * q1 - 4.0 * q2 * f;
        if (discriminant >= 0.0) {
            double divisor = q1 + sqrt(discriminant);
            double rise = -2.0 * f / divisor;
            if (divisor > 0.0 && from + rise <= line->reach_bar) {
                return from + rise;
            }
        }
        from = line->reach_bar;
    }
    double root = (c->owing_bar - line->low * c->excess_bar) / (1.0 + line->low * c->slope);
    return root < from ? from : root;
}

double plmi_ceiling_bar(const struct plm_tissue *tissue, const struct plm_zhl16 *model,
                        const struct plmi_gf *gf, int *leading)
{
    struct limits limits;
    limits_find(&limits, tissue, model);
    struct line line = line_of(gf);
    double height_bar = 0.0;
    int at = -1;
    /*
     * With an anchor older than the tensions a compartment may be clear near the surface, not clear
     * deeper, and clear again deeper still; so what one compartment asks is put before all others
     * again, until none asks for more. Heights only grow; each compartment has three ranges at most.
     */
    for (int round = 0; round < 3 * PLM_COMPARTMENTS; round++) {
        double before_bar = height_bar;
        for (int i = 0; i < PLM_COMPARTMENTS; i++) {
            struct compartment c = {limits.tension_bar[i] - gf->surface_bar,
                                    limits.a_bar[i] + limits.slope[i] * gf->surface_bar,
                                    limits.slope[i]};
            double asked_bar = least_height_bar(&c, &line, height_bar);
            if (!(asked_bar <= height_bar)) {
                height_bar = asked_bar;
                at = i;
            }
        }
        /* A rise within rounding is the same root found again. */
        if (!(height_bar > before_bar + 1e-14)) {
            break;
        }
    }
    if (leading != NULL) {
        *leading = at;
        if (at < 0) {
            plmi_gradient_pct(tissue, model, gf->surface_bar, leading);
        }
    }
    return gf->surface_bar + height_bar;
}

double plmi_ceiling_constant_bar(const struct plm_tissue *tissue, const struct plm_zhl16 *model,
                                 double gf_frac, int *leading)
{
    struct limits limits;
    limits_find(&limits, tissue, model);
    double deepest_bar = -(double)INFINITY;
    int at = 0;
    for (int i = 0; i < PLM_COMPARTMENTS; i++) {
        double ceiling_bar =
            (limits.tension_bar[i] - gf_frac * limits.a_bar[i]) / (1.0 + gf_frac * limits.slope[i]);
        if (!(ceiling_bar <= deepest_bar)) {
            deepest_bar = ceiling_bar;
            at = i;
        }
    }
    if (leading != NULL) {
        *leading = at;
    }
    return deepest_bar;
}
