/*
 * Reviewer: a mix was in use deeper than its oxygen allows.
 * Must not look at the PO2 of the loop; review_oxygen_high.c does.
 * SPDX-License-Identifier: MIT
 */
#include "review/kinds/reviewers.h"
#include "review/scene/parts.h"

#include <math.h>

#define ALLOWANCE_BAR 0.05 /* [bar] half a metre of depth, or the slack of schedules where that is more; convention */
#define SERIOUS_BAR   0.2  /* [bar] on open circuit: beyond the mix's limit by more; convention */

/* [bar] what the oxygen of the mix may come to: stated for the mix, else the rule; on a loop the set point, but for one
 * on oxygen alone. */
static double limit_bar(const struct plm_review_scene *scene, size_t point)
{
    const struct plm_setting *setting = plmi_review_setting(scene, point);
    bool oxygen_alone = plmi_review_mix(scene, point)->mix.o2_frac >= 1;
    if (setting->mode == PLM_MODE_CLOSED && !oxygen_alone) {
        return isnan(setting->setpoint_bar) ? scene->rules->po2_max_bar : setting->setpoint_bar;
    }
    double stated_bar = plmi_review_mix(scene, point)->po2_max_bar;
    return isnan(stated_bar) ? scene->rules->po2_max_bar : stated_bar;
}

static double mix_bar(const struct plm_review_scene *scene, size_t point)
{
    return plmi_review_mix(scene, point)->mix.o2_frac * scene->points[point].ambient_bar;
}

static double excess(const struct plm_review_scene *scene, size_t point)
{
    if (!plmi_review_submerged(scene, point)) {
        return 0;
    }
    double over_bar =
        mix_bar(scene, point) - limit_bar(scene, point) - fmax(ALLOWANCE_BAR, scene->rules->deco_po2_slack_bar);
    return over_bar > 1e-6 ? over_bar : 0;
}

static enum plm_severity severity(const struct plm_review_scene *scene, size_t point)
{
    const struct plm_rules *rules = scene->rules;
    double bar = mix_bar(scene, point);
    if (plmi_review_setting(scene, point)->mode != PLM_MODE_CLOSED) {
        if (plmi_review_at_stop(scene, point) && bar - limit_bar(scene, point) <= rules->po2_stop_note_bar) {
            return PLM_SEVERITY_NOTE;
        }
        return bar - limit_bar(scene, point) > SERIOUS_BAR ? PLM_SEVERITY_SERIOUS : PLM_SEVERITY_CAUTION;
    }
    if (bar > rules->po2_max_bar) {
        return PLM_SEVERITY_SERIOUS;
    }
    return bar > rules->po2_bottom_max_bar ? PLM_SEVERITY_CAUTION : PLM_SEVERITY_NOTE;
}

static void tell(const struct plm_review_scene *scene, struct plm_finding_list *list,
                 const struct plmi_review_stretch *stretch, struct plm_finding *finding)
{
    char name[32];
    size_t worst = stretch->worst;
    const struct plm_mix *mix = &plmi_review_mix(scene, worst)->mix;
    bool loop = plmi_review_setting(scene, worst)->mode == PLM_MODE_CLOSED;
    bool by_setpoint = loop && mix->o2_frac < 1;
    finding->severity = severity(scene, worst);
    finding->serious_share = loop ? mix_bar(scene, worst) / scene->rules->po2_max_bar
                                  : (mix_bar(scene, worst) - limit_bar(scene, worst)) / SERIOUS_BAR;
    finding->value = scene->points[worst].depth_m;
    finding->limit = fmax(0, plm_depth_m(scene->assumed->surface_bar, limit_bar(scene, worst) / mix->o2_frac,
                                         scene->assumed->water_kg_m3));
    finding->text = plm_finding_sentence(
        list, "{s}{s} was in use at {m}, {t}{s}: its oxygen alone comes to {2} bar there, {2} bar {s} met at {m}.",
        loop ? "Diluent " : "", plm_mix_name(mix, name, sizeof name), finding->value, plmi_review_time_s(scene, worst),
        plmi_review_often(list, stretch), mix_bar(scene, worst), limit_bar(scene, worst),
        by_setpoint ? "of the set point are" : "as the limit are", finding->limit);
}

static void look(const struct plm_review_scene *scene, struct plm_finding_list *list)
{
    plmi_review_stretches_tell(scene, list, excess, PLMI_REVIEW_ANY_LENGTH, tell);
}

static const struct plm_explanation explanation = {
    .what = "A mix was breathed deeper than its oxygen allows; on a loop: the diluent alone holds more oxygen at that "
            "depth than the set point, "
            "so that flushing the loop cannot bring it down.",
    .reached = "Open circuit: a caution, serious more than 0.2 bar beyond the mix's limit, a note up to "
               "po2_stop_note_bar (0.1 bar) beyond it at rest on a stop. Loop: a note, a caution "
               "where the diluent's oxygen is above "
               "po2_bottom_max_bar (1.4 bar), serious above po2_max_bar (1.6 bar). Told from 0.05 bar over the limit "
               "on, half a metre of depth, or from "
               "deco_po2_slack_bar on where that is more: oxygen at 6 m is none.",
    .formula = "Oxygen fraction times ambient pressure against the limit told for the mix, else po2_max_bar; on a loop "
               "against the set point, but for one "
               "on oxygen alone. Value is the depth, limit the depth at which that pressure is met.",
    .source = "NOAA Diving Manual, oxygen exposure limits; the diluent's rule is common practice, no source.",
    .ask = "Was the right cylinder breathed, or is it the log that names the wrong mix? Who checked the switch?"};

const struct plm_reviewer plmi_review_mix_too_deep = {.kind = "mix-too-deep",
                                                      .unit = "m",
                                                      .meaning = "a mix breathed deeper than its oxygen allows",
                                                      .look = look,
                                                      .explanation = &explanation};
