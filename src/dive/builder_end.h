/*
 * Where a record ends that cannot be followed to its own end.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_DIVE_BUILDER_END_H
#define PLM_DIVE_BUILDER_END_H

#include "dive/builder_base.h"

/*
 * Ends the record where it cannot be followed: where rules->samples_max has no room for more, at a gap in the water
 * longer than rules->gap_max_min, and at rules->dive_max_h from the first sample in the water on. What is behind is
 * taken away and reported, as is what was recorded at the surface that long before the dive. Through a gap that begins
 * at the surface the diver is taken to have stayed there. Returns: false without memory.
 */
bool plmi_builder_end(struct plm_dive_builder *builder);

#endif
