/*
 * What a diver breathes on the way up: the mix at each depth, and the inert gas of it.
 * Must not know of tissues.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "ascent/breathing.h"

/* As much oxygen as air, as logs round it: where air can be breathed at the surface, so can this. */
static const double as_air_o2_frac = 0.2;

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
        .lean_up_to_bar = mix->o2_frac < as_air_o2_frac ? rules->po2_min_bar / mix->o2_frac : 0.0,
        .po2_down_to_bar = (limit_bar + rules->deco_po2_slack_bar) / mix->o2_frac,
        .density_down_to_bar = rules->deco_density_max_g_l / plmi_density_open_g_l(mix, 1.0),
    };
    insert_mix(breathing, &carried);
}

/* The mix breathed where the ascent begins is one of those carried. */
static bool is_carried(const struct plmi_ascent_gas *gas)
{
    const double rounding = 1e-9;
    for (int i = 0; i < gas->carried_count; i++) {
        if (fabs(gas->carried[i].o2_frac - gas->mix.o2_frac) < rounding &&
            fabs(gas->carried[i].he_frac - gas->mix.he_frac) < rounding) {
            return true;
        }
    }
    return false;
}

void plmi_breathing_stay(struct plmi_breathing *breathing, const struct plmi_ascent_gas *gas,
                         const struct plm_rules *rules)
{
    breathing->vapour_bar = rules->water_vapour_bar;
    breathing->on_loop = gas->mode == PLM_MODE_CLOSED;
    breathing->setpoint_bar = gas->setpoint_bar;
    breathing->breathed = gas->mix;
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
    if (gas->mode == PLM_MODE_OPEN) {
        breathing->count = 0;
        for (int i = 0; i < gas->carried_count; i++) {
            add_mix(breathing, &gas->carried[i], gas->carried_po2_max_bar[i], rules);
        }
        if (!is_carried(gas)) {
            add_mix(breathing, &gas->mix, (double)NAN, rules);
        }
    }
}

static bool keeps_oxygen(const struct plmi_carried *carried, double ambient_bar)
{
    return ambient_bar <= carried->po2_down_to_bar && ambient_bar >= carried->lean_up_to_bar;
}

const struct plm_mix *plmi_breathing_mix(const struct plmi_breathing *breathing, double ambient_bar)
{
    const struct plm_mix *dense = NULL;
    for (int i = 0; i < breathing->count; i++) {
        const struct plmi_carried *carried = &breathing->carried[i];
        if (!keeps_oxygen(carried, ambient_bar)) {
            continue;
        }
        if (ambient_bar <= carried->density_down_to_bar) {
            return &carried->mix;
        }
        if (dense == NULL) {
            dense = &carried->mix;
        }
    }
    return dense != NULL ? dense : &breathing->breathed;
}

/* [bar] how far up from ambient_bar the mixes that keep their oxygen there keep it; ambient_bar itself: none does. */
static double kept_up_to_bar(const struct plmi_breathing *breathing, double ambient_bar)
{
    double up_to_bar = ambient_bar;
    for (int i = 0; i < breathing->count; i++) {
        const struct plmi_carried *carried = &breathing->carried[i];
        if (keeps_oxygen(carried, ambient_bar) && carried->lean_up_to_bar < up_to_bar) {
            up_to_bar = carried->lean_up_to_bar;
        }
    }
    return up_to_bar;
}

/* [bar] the deepest pressure above ambient_bar, not above to_bar, at which a mix keeps its oxygen again. */
static double next_kept_bar(const struct plmi_breathing *breathing, double ambient_bar, double to_bar)
{
    double next_bar = to_bar;
    for (int i = 0; i < breathing->count; i++) {
        const struct plmi_carried *carried = &breathing->carried[i];
        bool keeps_any = carried->lean_up_to_bar < carried->po2_down_to_bar;
        if (keeps_any && carried->po2_down_to_bar < ambient_bar && carried->po2_down_to_bar > next_bar) {
            next_bar = carried->po2_down_to_bar;
        }
    }
    return next_bar;
}

bool plmi_breathing_gap(const struct plmi_breathing *breathing, double from_bar, double to_bar, double *gap_from_bar,
                        double *gap_to_bar)
{
    double at_bar = from_bar;
    while (!breathing->on_loop && at_bar > to_bar) {
        double up_to_bar = kept_up_to_bar(breathing, at_bar);
        if (!(up_to_bar < at_bar)) {
            *gap_from_bar = at_bar;
            *gap_to_bar = next_kept_bar(breathing, at_bar, to_bar);
            return true;
        }
        at_bar = up_to_bar;
    }
    return false;
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
