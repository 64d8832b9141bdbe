/*
 * Samples at depths that no diver can have swum to and from.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_DIVE_BUILDER_SPIKES_H
#define PLM_DIVE_BUILDER_SPIKES_H

#include "dive/builder_base.h"

/*
 * Puts depths above the surface right: one or two samples that read above it by more than
 * rules->above_surface_max_m between others that do not are dropped, all others become 0 m. Each is reported.
 */
void plmi_builder_above(struct plm_dive_builder *builder);
/*
 * Drops one or two samples away from their neighbours and back, each way by rules->spike_least_m or more and faster
 * than rules->spike_m_min, where the way between the neighbours can be swum; one such at an end of the record where it
 * is deeper than the next. Where a recorder writes on change alone one of the ways may be long in time: its samples are
 * taken to stand for a level up to a usual step before the next. Each is reported and kept among the odd samples; none
 * is dropped where it were more than a quarter of the record. Then reports single samples away and back faster than
 * rules->doubt_m_min, which stay.
 * Returns: false without memory.
 */
bool plmi_builder_spikes(struct plm_dive_builder *builder);

#endif
