/*
 * The keys of a dive card: one table for each section.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_IMPORT_CARD_KEYS_H
#define PLM_IMPORT_CARD_KEYS_H

#include "base/diags.h"
#include "import/card/card.h"
#include "syntax/ini.h"

/* A card while it is read. at: the change that lines of an [at ...] section belong to; NULL outside. */
struct plmi_card_reading {
    struct plm_card *card;
    struct plmi_diags *diags;
    const struct plm_rules *rules;
    struct plmi_card_change *at;
    bool failed;
};

/* Takes one value. Returns: NULL where it was taken, else what is wrong with it. */
struct plmi_card_key {
    const char *key;
    const char *(*take)(struct plmi_card_reading *reading, const char *value);
};

extern const struct plmi_card_key plmi_card_dive_keys[]; /* ends with a NULL key */
extern const struct plmi_card_key plmi_card_at_keys[];

/* A line of [rules]: one of the table of rules. Returns: as take. */
const char *plmi_card_rule_take(struct plmi_card_reading *reading, const char *key, const char *value);
/* A line of [mixes]: its name is the key. Returns: as take. */
const char *plmi_card_mix_take(struct plmi_card_reading *reading, const char *name, const char *value);

#endif
