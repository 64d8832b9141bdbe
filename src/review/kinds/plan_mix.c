/*
 * Reviewer: another mix than planned, or another way of breathing it.
 * SPDX-License-Identifier: MIT
 */
#include "review/plan/comparison.h"
#include "review/kinds/reviewers.h"
#include "review/plan/plan.h"

static bool fits(const struct plmi_review_bands *bands, const struct plm_review_scene *scene, size_t point,
                 const struct plm_setting *planned)
{
    size_t count = 0;
    const struct plm_dive_mix *mixes = plm_dive_mixes(bands->plan->input->dive, &count);
    return plmi_review_setting(scene, point)->mode == planned->mode &&
           plmi_review_mix_alike(scene->rules, &plmi_review_mix(scene, point)->mix, &mixes[planned->mix].mix);
}

static double excess(const struct plm_review_scene *scene, size_t point)
{
    return plmi_review_unlike(scene, point, fits) != NULL ? 1 : 0;
}

/* "the loop on 10/70", "18/45 on open circuit". */
static const char *words(struct plm_finding_list *list, enum plm_mode mode, const struct plm_mix *mix)
{
    char name[32];
    plm_mix_name(mix, name, sizeof name);
    return plm_finding_sentence(list, mode == PLM_MODE_OPEN ? "{s} on open circuit" : "the loop on {s}", name);
}

static void tell(const struct plm_review_scene *scene, struct plm_finding_list *list,
                 const struct plmi_review_stretch *stretch, struct plm_finding *finding)
{
    size_t count = 0;
    const struct plm_setting *planned = plmi_review_unlike(scene, stretch->worst, fits);
    const struct plm_mix *meant = &plm_dive_mixes(scene->plan->dive, &count)[planned->mix].mix,
                         *mix = &plmi_review_mix(scene, stretch->worst)->mix;
    finding->severity = PLM_SEVERITY_CAUTION;
    finding->value = mix->o2_frac;
    finding->limit = meant->o2_frac;
    finding->text = plm_finding_sentence(list, "Breathed {s} from {t} at {m} to {t} at {m}, where the plan has {s}.",
                                         words(list, plmi_review_setting(scene, stretch->worst)->mode, mix),
                                         finding->from_s, finding->from_depth_m, finding->to_s, finding->to_depth_m,
                                         words(list, planned->mode, meant));
}

static void look(const struct plm_review_scene *scene, struct plm_finding_list *list)
{
    if (scene->plan != NULL) {
        plmi_review_stretches_tell(scene, list, excess, scene->rules->plan_time_s, tell);
    }
}

static const struct plm_explanation explanation = {
    .what = "The diver breathed another mix than the plan has at that depth, or was on the loop where the plan has "
            "open circuit, or the other way round.",
    .reached = "A caution when it held longer than plan_time_s (1 min). A mix is another when oxygen or helium differ "
               "by more than plan_o2_frac (0.015).",
    .formula = "What is breathed at each sample against what the plan has in the same band of depth (stop_step_m wide) "
               "of the same phase: down and bottom, or "
               "ascent. Value and limit are oxygen fractions.",
    .source = "Convention of this program.",
    .ask = "Was the cylinder not there, the switch late, or only the recorder not told? On bail-out: what made the "
           "diver leave the loop?"};

const struct plm_reviewer plmi_review_plan_mix = {
    .kind = "plan-mix", .unit = "", .meaning = "another mix than planned", .look = look, .explanation = &explanation};
