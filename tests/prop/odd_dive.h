/*
 * Random dives with everything that a recording can hold, likely or not.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_PROP_ODD_DIVE_H
#define PLM_PROP_ODD_DIVE_H

#include <plimsoll/dive.h>

#include "support/random.h"

/* The caller frees. index: number in its log, from 1. plain: nothing that a table has no place for. */
struct plm_dive *odd_dive(struct seeded *seeded, int index, bool plain);

#endif
