/*
 * What a diver breathes on the way up: the mix at each depth, and the inert gas of it.
 * Must not know of tissues.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "ascent/breathing.h"

/* Puts a mix in its place: most oxygen first, of equals the one named first. */
static void insert_mix(struct plmi_breathing *breathing, const struct plmi_carried *carried)
{
    int at = breathing->count++;
    while (at > 0 && breathing->carried[at - 1].mix.o2_frac < carried->mix.o2_frac) {
        breathing->carried[at] = breathing->carried[at - 1];
        at--;
    }
    breathing->carried[at] = *carried;
}

static void add_mix(struct plmi_breathing *breathing, const struct plm_mix *mix, double po2_max_bar,
                    const struct plm_rules *rules)
{
    double limit_bar = isnan(po2_max_bar) ? rules->deco_po2_max_bar : po2_max_bar;
    struct plmi_carried carried = {
        .mix = *mix,
        .po2_down_to_bar = (limit_bar + rules->deco_po2_slack_bar) / mix->o2_frac,
        .density_down_to_bar = rules->deco_density_max_g_l / plmi_density_open_g_l(mix, 1.0),
    };
    insert_mix(breathing, &carried);
}

void plmi_breathing_stay(struct plmi_breathing *breathing, const struct plmi_ascent_gas *gas,
                         const struct plm_rules *rules)
{
    breathing->vapour_bar = rules->water_vapour_bar;
    breathing->on_loop = gas->mode == PLM_MODE_CLOSED;
    breathing->setpoint_bar = gas->setpoint_bar;
    breathing->count = 0;
    add_mix(breathing, &gas->mix, (double)NAN, rules);
}

void plmi_breathing_find(struct plmi_breathing *breathing, const struct plmi_ascent_gas *gas,
                         const struct plm_rules *rules)
{
    plmi_breathing_stay(breathing, gas, rules);
    if (gas->mode == PLM_MODE_CLOSED && rules->deco_setpoint_bar > 0.0) {
        breathing->setpoint_bar = rules->deco_setpoint_bar;
    }
    if (gas->mode == PLM_MODE_OPEN && gas->carried_count > 0) {
        breathing->count = 0;
        for (int i = 0; i < gas->carried_count; i++) {
            add_mix(breathing, &gas->carried[i], gas->carried_po2_max_bar[i], rules);
        }
    }
}

const struct plm_mix *plmi_breathing_mix(const struct plmi_breathing *breathing, double ambient_bar)
{
    const struct plmi_carried *dense = NULL;
    for (int i = 0; i < breathing->count; i++) {
        const struct plmi_carried *carried = &breathing->carried[i];
        if (ambient_bar > carried->po2_down_to_bar) {
            continue;
        }
        if (ambient_bar <= carried->density_down_to_bar) {
            return &carried->mix;
        }
        if (dense == NULL) {
            dense = carried;
        }
    }
    return dense != NULL ? &dense->mix : &breathing->carried[breathing->count - 1].mix;
}

struct plmi_inspired plmi_breathing_inspired(const struct plmi_breathing *breathing, const struct plm_mix *mix,
                                             double ambient_bar)
{
    if (breathing->on_loop) {
        return plmi_inspired_loop(mix, ambient_bar, breathing->setpoint_bar, breathing->vapour_bar);
    }
    return plmi_inspired_open(mix, ambient_bar, breathing->vapour_bar);
}

double plmi_breathing_kink_bar(const struct plmi_breathing *breathing)
{
    return breathing->on_loop ? breathing->setpoint_bar + breathing->vapour_bar : -(double)INFINITY;
}
