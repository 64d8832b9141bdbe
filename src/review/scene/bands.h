/*
 * What the plan has one breathe, by phase and depth band: gas and set point.
 * Must not judge a dive.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REVIEW_SCENE_BANDS_H
#define PLM_REVIEW_SCENE_BANDS_H

#include "review/scene/phases.h"

/* Seconds by phase (down and bottom, ascent), band and setting of the plan; [2][bands][settings]. */
struct plmi_review_bands {
    const struct plm_review_scene *plan;
    double step_m, accept_s;
    size_t bands, settings;
    double *seconds;
};

/* Returns: OK or MEMORY. plan is borrowed. */
enum plm_status plmi_review_bands_find(struct plmi_review_bands *out, const struct plm_review_scene *plan,
                                       const struct plmi_review_phases *phases);
void plmi_review_bands_free(struct plmi_review_bands *bands);

/* Whether a setting of the dive fits one of the plan. */
typedef bool plmi_review_fits(const struct plmi_review_bands *bands, const struct plm_review_scene *scene, size_t point,
                              const struct plm_setting *planned);

/*
 * The plan's setting that counts at this depth and phase: NULL where the dive's fits one that the plan has there for
 * accept_s or most of the time, else the one that the plan has there longest. Bands that the plan never met: the
 * nearest one of the phase.
 */
const struct plm_setting *plmi_review_bands_unlike(const struct plmi_review_bands *bands,
                                                   const struct plm_review_scene *scene, size_t point, bool ascent,
                                                   plmi_review_fits *fits);

#endif
