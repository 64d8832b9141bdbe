/*
 * Mixes of a dive: added, found again, carried. Whether a mix can be is decided in mix_parts.c.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <string.h>

#include "dive/builder_base.h"
#include "dive/mix_parts.h"

/* More mixes than this no diver breathes on one dive; each is looked for among the others. */
#define MIXES_MOST 1000

static enum plm_status mix_add(struct plm_dive_builder *builder, struct plm_dive_mix *mix, uint32_t *index)
{
    struct plm_dive *dive = builder->dive;
    if (dive->mix_count == MIXES_MOST) {
        dive->info.partial = true;
        plmi_builder_tell(builder, PLM_LEVEL_ERROR, PLM_DIAG_LIMIT, 0,
                          "more than %d mixes in one dive; reading stops there", MIXES_MOST);
        return PLM_STATUS_LIMIT;
    }
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

enum plm_status plm_dive_builder_mix(struct plm_dive_builder *builder, const char *id, const char *name, double o2_frac,
                                     double he_frac, double n2_frac, double ar_frac, double h2_frac,
                                     enum plm_mix_use use, uint32_t line, uint32_t *index)
{
    struct plmi_mix_parts parts = {o2_frac, he_frac, n2_frac, ar_frac, h2_frac};
    const char *shown = name != NULL && name[0] != '\0' ? name : id != NULL ? id : "";
    if (!plmi_mix_parts_settle(&parts, shown, line, &builder->diags)) {
        builder->dive->info.partial = true;
        return PLM_STATUS_INPUT;
    }
    struct plm_dive_mix mix = {.id = id, .name = name, .use = use, .mix = {parts.o2, parts.he, parts.n2}};
    return mix_add(builder, &mix, index);
}

enum plm_status plm_dive_builder_mix_find(struct plm_dive_builder *builder, double o2_frac, double he_frac,
                                          uint32_t line, uint32_t *index)
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
    return plm_dive_builder_mix(builder, "", plm_mix_name(&shown, name, sizeof name), o2_frac, he_frac, (double)NAN,
                                (double)NAN, (double)NAN, PLM_MIX_USE_ANY, line, index);
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
