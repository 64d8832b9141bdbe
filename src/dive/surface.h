/*
 * When the head is at the surface: where a diver goes under water, and where each time under it ends.
 * Must not know tissues.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_DIVE_SURFACE_H
#define PLM_DIVE_SURFACE_H

#include <plimsoll/dive.h>
#include <plimsoll/rules.h>

/* Walks over the surfacings of a record. Begins with at = 0 and under = false. */
struct plmi_surfacings {
    const struct plm_sample *samples; /* samples[count] */
    size_t count;
    const struct plm_rules *rules;
    size_t at;  /* looked at from here on */
    bool under; /* under water since the last surfacing */
};
struct plmi_surfacings plmi_surfacings_of(const struct plm_sample *samples, size_t count,
                                          const struct plm_rules *rules);

/*
 * The next surfacing: not deeper than surface_depth_m for surface_hold_s, or until the record ends. A head that dips
 * under afterwards has not gone down again, unless nearer to the last stop than to the surface.
 *   surfaced  the sample at the end of the rise with which that stay begins, surface_hold_s after its begin at the
 * latest Returns: false where there is none; walk->under tells then whether the record ends under water.
 */
bool plmi_surfacing_next(struct plmi_surfacings *walk, size_t *surfaced);

/* The samples between which a diver is under water: the last at the surface before, and the last surfacing; the last
 * sample where the record ends under water, with surfaced = false. */
struct plmi_wet {
    size_t from, to;
    bool surfaced;
};
/* count > 0. A record that never goes under water is wet as a whole. */
struct plmi_wet plmi_wet_find(const struct plm_sample *samples, size_t count, const struct plm_rules *rules);

#endif
