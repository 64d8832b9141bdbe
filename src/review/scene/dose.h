/*
 * What the reviewers of oxygen doses share: when a dose that only grows came to its limit.
 * Must not know which dose it is.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REVIEW_SCENE_DOSE_H
#define PLM_REVIEW_SCENE_DOSE_H

#include "review/scene/list.h"
#include "review/scene/scene.h"

/* The dose at a point, without what was carried in. */
typedef double plmi_review_dose(const struct plm_point *point);

/*
 * Adds a finding of a kind where the dose and what was carried in reach the limit by the end of the dive: from the
 * moment when they do, within the interval before that point, to the end. Value and limit are filled in; severity and
 * text are the caller's.
 * Returns: NULL where the limit is not reached or without memory.
 */
struct plm_finding *plmi_review_dose_found(struct plm_finding_list *list, const struct plm_review_scene *scene,
                                           plmi_review_dose *dose, double carried, double limit);

/* The same of an oxygen clock [%]: serious from cns_serious_pct on, a caution from cns_caution_pct, a note from
 * cns_note_pct. */
struct plm_finding *plmi_review_cns_found(struct plm_finding_list *list, const struct plm_review_scene *scene,
                                          plmi_review_dose *dose, double carried_pct);

/* Whether an oxygen clock is the least that it can be: some oxygen, in this dive or in what was carried in, was beyond
 * the table of limits. */
bool plmi_review_clock_least(const struct plm_review_scene *scene);
/* ", with 11.0 min above 1.70 bar of oxygen, 2.20 bar at the most, where no limit is published"; "" where there were
 * none in this dive. Of the list. */
const char *plmi_review_beyond_words(const struct plm_review_scene *scene, struct plm_finding_list *list);

/* What the diver had taken before, by the start state; 0 where nothing was carried. */
struct plm_start plmi_review_carried(const struct plm_review_scene *scene);

#endif
