/*
 * Reviewer: on a switch nitrogen rose by more than the fall of helium allows, by a rule of thumb.
 * Must not be more than a note: the rule is disputed.
 * SPDX-License-Identifier: MIT
 */
#include "review/kinds/reviewers.h"

#include "gas/mix.h"

static struct plmi_inspired breathed(const struct plm_review_scene *scene, size_t settings_of, double ambient_bar)
{
    const struct plm_setting *setting = plmi_review_setting(scene, settings_of);
    const struct plm_mix *mix = &plmi_review_mix(scene, settings_of)->mix;
    if (setting->mode == PLM_MODE_CLOSED) {
        return plmi_inspired_loop(mix, ambient_bar, scene->points[settings_of].po2_bar, scene->rules->water_vapour_bar);
    }
    return plmi_inspired_open(mix, ambient_bar, scene->rules->water_vapour_bar);
}

static bool is_switch(const struct plm_review_scene *scene, size_t point)
{
    const struct plm_setting *before = plmi_review_setting(scene, point - 1),
                             *after = plmi_review_setting(scene, point);
    return plmi_review_submerged(scene, point) && (before->mix != after->mix || before->mode != after->mode);
}

static void look_at(const struct plm_review_scene *scene, struct plm_finding_list *list, size_t point)
{
    double ambient_bar = scene->points[point].ambient_bar;
    double dry_bar = ambient_bar - scene->rules->water_vapour_bar;
    struct plmi_inspired before = breathed(scene, point - 1, ambient_bar), after = breathed(scene, point, ambient_bar);
    double rise = (after.n2_bar - before.n2_bar) / dry_bar, fall = (before.he_bar - after.he_bar) / dry_bar;
    if (!(fall > 0.001) || !(rise > scene->rules->counterdiffusion_ratio * fall + 1e-6)) {
        return;
    }
    struct plm_finding *finding = plm_finding_add(list, scene, point, point);
    if (finding == NULL) {
        return;
    }
    finding->value = rise / fall;
    finding->limit = scene->rules->counterdiffusion_ratio;
    finding->text = plm_finding_sentence(
        list,
        "The switch at {t} and {m} raised nitrogen by {0} % of the gas while helium fell by {0} %: {2} times as "
        "much, where {2} is a rule of thumb.",
        finding->from_s, finding->from_depth_m, rise * 100, fall * 100, finding->value, finding->limit);
}

static void look(const struct plm_review_scene *scene, struct plm_finding_list *list)
{
    for (size_t i = 1; i < scene->count && !list->failed; i++) {
        if (is_switch(scene, i)) {
            look_at(scene, list, i);
        }
    }
}

static const struct plm_explanation explanation = {
    .what = "On a switch from helium to a gas rich in nitrogen, nitrogen may enter some tissues faster than helium "
            "leaves them. Some link "
            "this with trouble of the inner ear on deep switches.",
    .reached = "Always a note: the rule was never reviewed by peers and is disputed.",
    .formula = "Rise of the inspired nitrogen fraction over fall of the inspired helium fraction at the switch, more "
               "than counterdiffusion_ratio "
               "(0.2); on a loop by the loop's gas before and after.",
    .source = "A rule of thumb of one fifth, not peer-reviewed, disputed.",
    .ask = "Dizziness, ringing ears or nausea after the switch? Was the switch planned at that depth?"};

const struct plm_reviewer plmi_review_counterdiffusion = {.kind = "counterdiffusion",
                                                          .unit = "",
                                                          .meaning =
                                                              "nitrogen rises more than helium falls allow on a switch",
                                                          .look = look,
                                                          .explanation = &explanation};
