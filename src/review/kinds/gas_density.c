/*
 * Reviewer: the gas breathed was dense.
 * SPDX-License-Identifier: MIT
 */
#include "review/kinds/reviewers.h"

static double excess(const struct plm_review_scene *scene, size_t point)
{
    double over = scene->points[point].density_g_l - scene->rules->density_note_g_l;
    return over > 1e-6 ? over : 0;
}

static void tell(const struct plm_review_scene *scene, struct plm_finding_list *list,
                 const struct plmi_review_stretch *stretch, struct plm_finding *finding)
{
    double density = scene->points[stretch->worst].density_g_l;
    bool high = density > scene->rules->density_caution_g_l;
    finding->severity = high ? PLM_SEVERITY_CAUTION : PLM_SEVERITY_NOTE;
    finding->value = density;
    finding->limit = high ? scene->rules->density_caution_g_l : scene->rules->density_note_g_l;
    finding->text = plm_finding_sentence(
        list, "The gas was denser than {1} g/L {w}{s}: {2} g/L at {t} and {m}.", scene->rules->density_note_g_l,
        finding->from_s, finding->to_s, plmi_review_often(list, stretch), density,
        plmi_review_time_s(scene, stretch->worst), scene->points[stretch->worst].depth_m);
}

static void look(const struct plm_review_scene *scene, struct plm_finding_list *list)
{
    plmi_review_stretches_tell(scene, list, excess, PLMI_REVIEW_ANY_LENGTH, tell);
}

static const struct plm_explanation explanation = {
    .what = "Dense gas is hard to move: carbon dioxide builds up, most of all on a loop and under effort.",
    .reached = "A note above density_note_g_l (5.2 g/L), a caution above density_caution_g_l (6.2 g/L).",
    .formula = "Sum over the gases of partial pressure times density at 0 C and 1 atm (O2 1.428, N2 1.251, He 0.178 "
               "g/L); on a loop from the "
               "loop's partial pressures.",
    .source = "Anthony and Mitchell 2016, from memory.",
    .ask = "Was the work hard there: current, scooter trouble, towing? Headache or breathlessness after? Was more "
           "helium at hand?"};

const struct plm_reviewer plmi_review_gas_density = {
    .kind = "gas-density", .unit = "g/L", .meaning = "dense gas", .look = look, .explanation = &explanation};
