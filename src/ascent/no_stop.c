/*
 * No-stop time: how long the diver can stay and still go straight to the surface.
 * Must not judge or keep anything.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "ascent/clearing.h"
#include "ascent/schedule.h"
#include "ascent/walk.h"

/* [s] */
static const double exact_enough_s = 1e-3;

/* What the direct ascent makes of tensions: keep * tension + add, compartment by compartment. */
struct way_up {
    double n2_keep[PLM_COMPARTMENTS], he_keep[PLM_COMPARTMENTS];
    struct plm_tissue add;
};

static void find_way_up(struct way_up *way, struct plmi_walk *walk)
{
    for (int i = 0; i < PLM_COMPARTMENTS; i++) {
        way->n2_keep[i] = way->he_keep[i] = 1.0;
        way->add.n2_bar[i] = way->add.he_bar[i] = 0.0;
    }
    while (walk->depth_m > 0.0) {
        struct plmi_travel travel;
        plmi_walk_ahead(walk, plmi_breathing_mix(&walk->breathing, walk->ambient_bar), &travel);
        for (int leg = 0; leg < travel.leg_count; leg++) {
            const struct plmi_factors *f = travel.factors[leg];
            for (int i = 0; i < PLM_COMPARTMENTS; i++) {
                way->n2_keep[i] *= 1.0 - f->n2_gain[i];
                way->he_keep[i] *= 1.0 - f->he_gain[i];
            }
        }
        plmi_walk_travel(&travel, &way->add);
        plmi_walk_arrive(walk, &travel, &walk->tissue);
    }
}

/* [s] the longest stay after which every compartment surfaces within GF high; 0 when one does not
 * even at once. */
static double surfacing_s(const struct plmi_ascent_from *from, const struct plmi_inspired *inspired,
                          const struct plmi_walk *walk, const struct way_up *way, double max_s)
{
    const struct plm_zhl16 *model = walk->model;
    const double ln_2_per_min = 0.69314718055994530942 / 60.0;
    double longest_s = max_s;
    for (int i = 0; i < PLM_COMPARTMENTS && longest_s > 0.0; i++) {
        struct plmi_clearing clearing = {
            .n2_end_bar = way->n2_keep[i] * inspired->n2_bar + way->add.n2_bar[i],
            .n2_gap_bar = way->n2_keep[i] * (from->tissue.n2_bar[i] - inspired->n2_bar),
            .n2_k = ln_2_per_min / model->n2_half_time_min[i],
            .he_end_bar = way->he_keep[i] * inspired->he_bar + way->add.he_bar[i],
            .he_gap_bar = way->he_keep[i] * (from->tissue.he_bar[i] - inspired->he_bar),
            .he_k = ln_2_per_min / model->he_half_time_min[i],
            .n2_a_bar = model->n2_a_bar[i],
            .n2_b = model->n2_b[i],
            .he_a_bar = model->he_a_bar[i],
            .he_b = model->he_b[i],
            .ambient_bar = walk->surface_bar,
            .gf_frac = walk->gf_high,
        };
        double rate, curve;
        bool owes = plmi_clearing_over_bar(&clearing, 0.0, &rate, &curve) > 0.0;
        longest_s = owes ? 0.0 : plmi_clearing_rise_s(&clearing, longest_s);
    }
    return longest_s;
}

/* The schedule after a stay has no stop. */
static bool is_clear_after(const struct plmi_ascent_from *from, const struct plmi_inspired *inspired,
                           const struct plmi_walk *walk, double stay_s)
{
    struct plmi_ascent_from later = *from;
    struct plmi_schedule schedule;
    struct plmi_limits limits;
    plmi_limits_find(&limits, &from->tissue, walk->model);
    later.anchor_bar = plmi_walk_anchor(walk, &limits, fmax(walk->surface_bar, from->anchor_bar));
    if (stay_s > 0.0) {
        plmi_tissue_hold(&later.tissue, walk->model, inspired->n2_bar, inspired->he_bar, stay_s);
    }
    plmi_schedule_find(&schedule, &later, walk->model, walk->rules);
    return schedule.status == PLM_STATUS_OK && schedule.stop_total_s < exact_enough_s;
}

double plmi_no_stop_s(const struct plmi_ascent_from *from, const struct plm_zhl16 *model, const struct plm_rules *rules)
{
    if (model == NULL || !plmi_walk_can_start(from, rules)) {
        return (double)NAN;
    }
    struct plmi_walk walk;
    struct way_up way;
    struct plmi_breathing staying;
    plmi_walk_start(&walk, from, model, rules);
    plmi_breathing_stay(&staying, &from->gas, rules);
    struct plmi_inspired inspired = plmi_breathing_inspired(&staying, &from->gas.mix, walk.ambient_bar);
    find_way_up(&way, &walk);
    double high_s = surfacing_s(from, &inspired, &walk, &way, rules->no_stop_max_min * 60.0);
    if (high_s == 0.0 || is_clear_after(from, &inspired, &walk, high_s)) {
        return high_s;
    }
    /* A stop depth passed is stricter than the surface: rare, and met where tissues give off fast.
     */
    double low_s = 0.0;
    if (!is_clear_after(from, &inspired, &walk, low_s)) {
        return 0.0;
    }
    while (high_s - low_s > exact_enough_s) {
        double middle_s = 0.5 * (low_s + high_s);
        bool clear = is_clear_after(from, &inspired, &walk, middle_s);
        low_s = clear ? middle_s : low_s;
        high_s = clear ? high_s : middle_s;
    }
    return low_s;
}
