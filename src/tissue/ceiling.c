/*
 * The ceiling: the least ambient pressure that the gradient factors allow, exact to the last digits.
 * Must not know of depth or time.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <stddef.h>

#include "tissue/largest.h"
#include "tissue/tissue.h"

/* [bar] an anchor nearer to the surface than this counts as none. */
static const double least_anchor_bar = 1e-6;

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

/*
 * What a compartment has in hand at the height u, f(u) = u + GF(u) (excess + slope u) - owing.
 * Up to the anchor f is a quadratic of u, beyond it a rising line.
 */
struct compartment {
    double owing_bar;  /* tension - surface */
    double excess_bar; /* allowed excess at the surface */
    double slope;
};

static double in_hand_bar(const struct compartment *c, const struct line *line, double u)
{
    double gf = u >= line->reach_bar ? line->low : line->high + line->s * u;
    return u + gf * (c->excess_bar + c->slope * u) - c->owing_bar;
}

/*
 * The least height from `from` on where nothing is owing; f(from) < 0. The rise from there to the
 * root is -2 f / (q1 + sqrt(q1^2 - 4 q2 f)): no difference of near numbers in it.
 */
static double least_height_bar(const struct compartment *c, const struct line *line, double from)
{
    if (from < line->reach_bar) {
        double f = in_hand_bar(c, line, from);
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

/* The compartment that owes most at a height; -1: none owes anything. The factor is the same for all, so this
 * vectorises. */
PLMI_INSIDE int poorest(const struct plmi_limits *limits, double surface_bar, const struct line *line, double u)
{
    double owing_bar[PLM_COMPARTMENTS];
    double gf = u >= line->reach_bar ? line->low : line->high + line->s * u;
    double ambient_bar = surface_bar + u;
    for (int i = 0; i < PLM_COMPARTMENTS; i++) {
        owing_bar[i] = limits->tension_bar[i] - ambient_bar - gf * (limits->a_bar[i] + limits->slope[i] * ambient_bar);
    }
    int at;
    return plmi_largest(owing_bar, &at) <= 0.0 ? -1 : at;
}

PLMI_WIDE double plmi_limits_ceiling_bar(const struct plmi_limits *limits, const struct plmi_gf *gf, int *leading)
{
    struct line line = line_of(gf);
    double height_bar = 0.0;
    int at = -1;
    /*
     * With an anchor older than the tensions a compartment may be clear near the surface, not clear
     * deeper, and clear again deeper still; so what the poorest asks is put before all others again,
     * until none asks for more. Heights only grow; each compartment has three ranges at most.
     */
    for (int round = 0; round < 3 * PLM_COMPARTMENTS; round++) {
        int i = poorest(limits, gf->surface_bar, &line, height_bar);
        if (i < 0) {
            break;
        }
        struct compartment c = {limits->tension_bar[i] - gf->surface_bar,
                                limits->a_bar[i] + limits->slope[i] * gf->surface_bar, limits->slope[i]};
        double asked_bar = least_height_bar(&c, &line, height_bar);
        /* A rise within rounding is the same root found again; all others owe less still. */
        if (asked_bar <= height_bar + 1e-14) {
            break;
        }
        height_bar = asked_bar;
        at = i;
        if (isnan(asked_bar)) {
            break;
        }
    }
    if (leading != NULL) {
        *leading = at;
        if (at < 0) {
            plmi_limits_gradient_pct(limits, gf->surface_bar, leading);
        }
    }
    return gf->surface_bar + height_bar;
}

double plmi_ceiling_bar(const struct plm_tissue *tissue, const struct plm_zhl16 *model, const struct plmi_gf *gf,
                        int *leading)
{
    struct plmi_limits limits;
    plmi_limits_find(&limits, tissue, model);
    return plmi_limits_ceiling_bar(&limits, gf, leading);
}
