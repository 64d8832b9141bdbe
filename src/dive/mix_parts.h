/*
 * Parts of a mix as sources give them, and the fractions made of them.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_DIVE_MIX_PARTS_H
#define PLM_DIVE_MIX_PARTS_H

#include "base/diags.h"

#include <stdint.h>

/* Fractions, or percent; NaN where nothing is stated. */
struct plmi_mix_parts {
    double o2, he, n2, ar, h2;
};

/*
 * Completes, scales and checks the parts: missing helium, argon, hydrogen are none, missing nitrogen is the rest,
 * percent are known by parts above 1; argon is counted with the nitrogen.
 *   name  for messages
 * Returns: false for what cannot be a mix, reported. After true o2 + he + n2 is 1 and the others are 0.
 */
bool plmi_mix_parts_settle(struct plmi_mix_parts *parts, const char *name, uint32_t line, struct plmi_diags *diags);

#endif
