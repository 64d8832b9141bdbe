/*
 * Parts of a mix: what a source says of a mix, made into fractions that can be breathed and computed with.
 * SPDX-License-Identifier: MIT
 */
#include "dive/mix_parts.h"

#include <math.h>

#include "base/figure.h"

static double or_zero(double value)
{
    return isnan(value) ? 0 : value;
}

/* Percent taken for fractions: known by parts above 1 that come to about 100. */
static bool parts_scale(struct plmi_diags *diags, struct plmi_mix_parts *parts, const char *name, uint32_t line)
{
    double sum = or_zero(parts->o2) + or_zero(parts->he) + or_zero(parts->n2) + or_zero(parts->ar) + or_zero(parts->h2);
    bool above_one = parts->o2 > 1 || parts->he > 1 || parts->n2 > 1 || parts->ar > 1 || parts->h2 > 1;
    if (!above_one) {
        return true;
    }
    bool whole = sum > 97 && sum < 103;
    bool rest_is_n2 = isnan(parts->n2) && parts->o2 >= 3 && sum <= 100; /* no mix holds less than 3 % of oxygen */
    if (!whole && !rest_is_n2) {
        plmi_diags_add(diags, PLM_LEVEL_ERROR, PLM_DIAG_MIX, (long)line, 0,
                       "mix '%s': its parts come to %s, which is neither 1 nor 100", name,
                       plmi_figure_short(sum, 4).text);
        return false;
    }
    plmi_diags_add(diags, PLM_LEVEL_WARNING, PLM_DIAG_MIX_GUESSED, (long)line, 0,
                   "mix '%s': its parts are read as percent", name);
    parts->o2 /= 100;
    parts->he /= 100;
    parts->n2 /= 100;
    parts->ar /= 100;
    parts->h2 /= 100;
    return true;
}

/* Fills in what is not stated: helium, argon and hydrogen none, nitrogen the rest, oxygen the rest of nitrogen. */
static bool parts_complete(struct plmi_diags *diags, struct plmi_mix_parts *parts, const char *name, uint32_t line)
{
    parts->he = or_zero(parts->he);
    parts->ar = or_zero(parts->ar);
    parts->h2 = or_zero(parts->h2);
    if (isnan(parts->o2)) {
        if (isnan(parts->n2)) {
            plmi_diags_add(diags, PLM_LEVEL_ERROR, PLM_DIAG_MIX, (long)line, 0,
                           "mix '%s' tells neither oxygen nor nitrogen", name);
            return false;
        }
        parts->o2 = 1 - parts->n2 - parts->he - parts->ar;
        plmi_diags_add(diags, PLM_LEVEL_WARNING, PLM_DIAG_MIX_GUESSED, (long)line, 0,
                       "mix '%s' tells no oxygen; the rest of the others is taken, %s", name,
                       plmi_figure_short(parts->o2, 4).text);
    }
    if (isnan(parts->n2)) {
        parts->n2 = 1 - parts->o2 - parts->he - parts->ar;
    }
    return true;
}

static bool parts_possible(struct plmi_diags *diags, const struct plmi_mix_parts *parts, const char *name,
                           uint32_t line)
{
    const double slip = 1e-9; /* of subtraction, where nitrogen is the rest */
    double sum = parts->o2 + parts->he + parts->n2 + parts->ar;
    if (parts->h2 > 0) {
        plmi_diags_add(diags, PLM_LEVEL_ERROR, PLM_DIAG_MIX, (long)line, 0,
                       "mix '%s' holds hydrogen, which no part of the model knows", name);
        return false;
    }
    if (parts->o2 <= 0 || parts->he < 0 || parts->n2 < -0.02 || parts->ar < 0) {
        plmi_diags_add(diags, PLM_LEVEL_ERROR, PLM_DIAG_MIX, (long)line, 0,
                       "mix '%s' cannot be: oxygen %s, helium %s, nitrogen %s", name,
                       plmi_figure_short(parts->o2, 4).text, plmi_figure_short(parts->he, 4).text,
                       plmi_figure_short(parts->n2, 4).text);
        return false;
    }
    if (fabs(sum - 1) > 0.02 + slip || parts->o2 + parts->he > 1.02) {
        plmi_diags_add(diags, PLM_LEVEL_ERROR, PLM_DIAG_MIX, (long)line, 0,
                       "mix '%s': its parts come to %s instead of 1", name, plmi_figure_short(sum, 4).text);
        return false;
    }
    if (fabs(sum - 1) > 0.005 + slip || parts->n2 < -0.005) {
        plmi_diags_add(diags, PLM_LEVEL_WARNING, PLM_DIAG_MIX_GUESSED, (long)line, 0,
                       "mix '%s': its parts come to %s instead of 1; nitrogen takes what is left", name,
                       plmi_figure_short(sum, 4).text);
    }
    if (parts->ar > 0) {
        plmi_diags_add(diags, PLM_LEVEL_NOTE, PLM_DIAG_MIX_GUESSED, (long)line, 0,
                       "mix '%s': argon, %s, is counted with the nitrogen", name, plmi_figure_short(parts->ar, 4).text);
    }
    return true;
}

bool plmi_mix_parts_settle(struct plmi_mix_parts *parts, const char *name, uint32_t line, struct plmi_diags *diags)
{
    if (!parts_scale(diags, parts, name, line) || !parts_complete(diags, parts, name, line) ||
        !parts_possible(diags, parts, name, line)) {
        return false;
    }
    double rest = 1 - parts->o2 - parts->he;
    parts->he = rest < 0 ? 1 - parts->o2 : parts->he;
    parts->n2 = rest > 1e-12 ? rest : 0;
    parts->ar = 0;
    return true;
}
