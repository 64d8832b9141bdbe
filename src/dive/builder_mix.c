/*
 * Mixes of a dive: what a source says of a mix, made into fractions that can be breathed and computed with.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <string.h>

#include "base/figure.h"
#include "dive/recording.h"

/* Parts of a mix as a source gives them, NaN where it does not. */
struct parts {
    double o2, he, n2, ar, h2;
};

static double or_zero(double value)
{
    return isnan(value) ? 0 : value;
}

/* Percent taken for fractions: told by parts above 1 that come to about 100. */
static bool parts_scale(struct plm_dive_builder *builder, struct parts *parts, const char *name, uint32_t line)
{
    double sum = or_zero(parts->o2) + or_zero(parts->he) + or_zero(parts->n2) + or_zero(parts->ar) + or_zero(parts->h2);
    bool above_one = parts->o2 > 1 || parts->he > 1 || parts->n2 > 1 || parts->ar > 1 || parts->h2 > 1;
    if (!above_one) {
        return true;
    }
    bool whole = sum > 97 && sum < 103;
    bool rest_is_n2 = isnan(parts->n2) && sum > 1 && sum <= 100;
    if (!whole && !rest_is_n2) {
        plmi_builder_report(builder, PLM_LEVEL_ERROR, PLM_DIAG_MIX, line, "mix '%s': its parts come to %s, which is neither 1 nor 100", name,
                            plmi_figure_short(sum, 4).text);
        return false;
    }
    plmi_builder_report(builder, PLM_LEVEL_WARNING, PLM_DIAG_MIX_GUESSED, line, "mix '%s': its parts are read as percent", name);
    parts->o2 /= 100;
    parts->he /= 100;
    parts->n2 /= 100;
    parts->ar /= 100;
    parts->h2 /= 100;
    return true;
}

/* Fills in what is not told: helium, argon and hydrogen none, nitrogen the rest, oxygen the rest of nitrogen. */
static bool parts_complete(struct plm_dive_builder *builder, struct parts *parts, const char *name, uint32_t line)
{
    parts->he = or_zero(parts->he);
    parts->ar = or_zero(parts->ar);
    parts->h2 = or_zero(parts->h2);
    if (isnan(parts->o2)) {
        if (isnan(parts->n2)) {
            plmi_builder_report(builder, PLM_LEVEL_ERROR, PLM_DIAG_MIX, line, "mix '%s' tells neither oxygen nor nitrogen", name);
            return false;
        }
        parts->o2 = 1 - parts->n2 - parts->he - parts->ar;
        plmi_builder_report(builder, PLM_LEVEL_WARNING, PLM_DIAG_MIX_GUESSED, line, "mix '%s' tells no oxygen; the rest of the others is taken, %s",
                            name, plmi_figure_short(parts->o2, 4).text);
    }
    if (isnan(parts->n2)) {
        parts->n2 = 1 - parts->o2 - parts->he - parts->ar;
    }
    return true;
}

static bool parts_possible(struct plm_dive_builder *builder, const struct parts *parts, const char *name, uint32_t line)
{
    const double slip = 1e-9;   /* of subtraction, where nitrogen is the rest */
    double sum = parts->o2 + parts->he + parts->n2 + parts->ar;
    if (parts->h2 > 0) {
        plmi_builder_report(builder, PLM_LEVEL_ERROR, PLM_DIAG_MIX, line, "mix '%s' holds hydrogen, which no part of the model knows", name);
        return false;
    }
    if (parts->o2 <= 0 || parts->he < 0 || parts->n2 < -0.02 || parts->ar < 0) {
        plmi_builder_report(builder, PLM_LEVEL_ERROR, PLM_DIAG_MIX, line, "mix '%s' cannot be: oxygen %s, helium %s, nitrogen %s", name,
                            plmi_figure_short(parts->o2, 4).text, plmi_figure_short(parts->he, 4).text, plmi_figure_short(parts->n2, 4).text);
        return false;
    }
    if (fabs(sum - 1) > 0.02 + slip || parts->o2 + parts->he > 1.02) {
        plmi_builder_report(builder, PLM_LEVEL_ERROR, PLM_DIAG_MIX, line, "mix '%s': its parts come to %s instead of 1", name,
                            plmi_figure_short(sum, 4).text);
        return false;
    }
    if (fabs(sum - 1) > 0.005 + slip || parts->n2 < -0.005) {
        plmi_builder_report(builder, PLM_LEVEL_WARNING, PLM_DIAG_MIX_GUESSED, line,
                            "mix '%s': its parts come to %s instead of 1; nitrogen takes what is left", name, plmi_figure_short(sum, 4).text);
    }
    if (parts->ar > 0) {
        plmi_builder_report(builder, PLM_LEVEL_NOTE, PLM_DIAG_MIX_GUESSED, line, "mix '%s': argon, %s, is counted with the nitrogen", name,
                            plmi_figure_short(parts->ar, 4).text);
    }
    return true;
}

static enum plm_status mix_add(struct plm_dive_builder *builder, struct plm_dive_mix *mix, uint32_t *index)
{
    struct plm_dive *dive = builder->dive;
    mix->id = plm_dive_builder_text(builder, mix->id == NULL ? "" : mix->id);
    mix->name = plm_dive_builder_text(builder, mix->name == NULL ? "" : mix->name);
    mix->po2_max_bar = (double)NAN;
    if (mix->id == NULL || mix->name == NULL ||
        !plmi_array_grow((void **)&dive->mixes, &dive->mix_capacity, dive->mix_count, sizeof *dive->mixes)) {
        return plmi_builder_no_memory(builder);
    }
    *index = (uint32_t)dive->mix_count;
    dive->mixes[dive->mix_count++] = *mix;
    return PLM_STATUS_OK;
}

enum plm_status plm_dive_builder_mix(struct plm_dive_builder *builder, const char *id, const char *name, double o2_frac, double he_frac,
                                     double n2_frac, double ar_frac, double h2_frac, enum plm_mix_use use, uint32_t line, uint32_t *index)
{
    struct parts parts = {o2_frac, he_frac, n2_frac, ar_frac, h2_frac};
    const char *shown = name != NULL && name[0] != '\0' ? name : id != NULL ? id : "";
    if (!parts_scale(builder, &parts, shown, line) || !parts_complete(builder, &parts, shown, line) ||
        !parts_possible(builder, &parts, shown, line)) {
        return PLM_STATUS_INPUT;
    }
    double rest = 1 - parts.o2 - parts.he;
    struct plm_dive_mix mix = {.id = id, .name = name, .use = use};
    mix.mix.o2_frac = parts.o2;
    mix.mix.n2_frac = rest > 1e-12 ? rest : 0;
    mix.mix.he_frac = rest < 0 ? 1 - parts.o2 : parts.he;
    return mix_add(builder, &mix, index);
}

enum plm_status plm_dive_builder_mix_find(struct plm_dive_builder *builder, double o2_frac, double he_frac, uint32_t line, uint32_t *index)
{
    const double same = 1e-6;
    const struct plm_dive *dive = builder->dive;
    for (size_t i = 0; i < dive->mix_count; i++) {
        const struct plm_mix *mix = &dive->mixes[i].mix;
        if (fabs(mix->o2_frac - o2_frac) < same && fabs(mix->he_frac - he_frac) < same) {
            *index = (uint32_t)i;
            return PLM_STATUS_OK;
        }
    }
    char name[32];
    struct plm_mix shown = {o2_frac, he_frac, 1 - o2_frac - he_frac};
    return plm_dive_builder_mix(builder, "", plm_mix_name(&shown, name, (int)sizeof name), o2_frac, he_frac, (double)NAN, (double)NAN, (double)NAN,
                                PLM_MIX_USE_ANY, line, index);
}

void plm_dive_builder_carry(struct plm_dive_builder *builder, uint32_t mix, enum plm_mix_use use, double po2_max_bar)
{
    struct plm_dive_mix *carried = &builder->dive->mixes[mix];
    carried->carried = true;
    if (use != PLM_MIX_USE_ANY) {
        carried->use = use;
    }
    if (!isnan(po2_max_bar)) {
        carried->po2_max_bar = po2_max_bar;
    }
}
