/*
 * The inside of a dive card: what it tells, each thing optional.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_IMPORT_CARD_CARD_H
#define PLM_IMPORT_CARD_CARD_H

#include <plimsoll/card.h>

#include "base/arena.h"

#define PLMI_CARD_MIXES   32
#define PLMI_CARD_CHANGES 256

struct plmi_card_mix {
    const char *name;
    double o2_frac, he_frac, po2_max_bar;
    enum plm_mix_use use;
    bool carried;
};

/* What changes at a moment; each part may be stated or not. mix is an index of the card's mixes, -1 not stated. */
struct plmi_card_change {
    double time_s;
    bool has_mode, has_setpoint;
    enum plm_mode mode;
    int mix;
    double setpoint_bar;
};

struct plm_card {
    const char *diver, *recorder, *site, *plan;
    struct plm_stamp start;
    bool has_zone;
    int zone_min;
    double surface_bar, altitude_m, water_kg_m3; /* NaN not stated */
    struct plm_rules rules;                      /* of [rules] and gf; those that stated names */
    struct plm_rules_stated stated;
    struct plmi_card_mix mixes[PLMI_CARD_MIXES];
    int mix_count;
    struct plmi_card_change changes[PLMI_CARD_CHANGES]; /* by time once read */
    int change_count;
    const char *file;
    struct plmi_arena arena;
};

#endif
