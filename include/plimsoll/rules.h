/*
 * The rules in force: every threshold, band, bound and convention as one value.
 * Nothing here computes; floors above read what they need.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_RULES_H
#define PLM_RULES_H

#include <stdbool.h>
#include <stddef.h>

#include <plimsoll/api.h>
#include <plimsoll/status.h>

#ifdef __cplusplus
extern "C" {
#endif

/* One number for each rule, and for a rule of choice the index of the word chosen. Field names are the keys;
 * a percent is a percent (30, not 0.3). */
struct plm_rules {
#define PLM_RULE(key, value, unit, min, max, meaning, source) double key;
#define PLM_RULE_CHOICE(key, value, words, meaning, source)   int key;
#include <plimsoll/rules.def>
#undef PLM_RULE
#undef PLM_RULE_CHOICE
};

/* Which rules were stated on purpose, one flag for each, by the same names. All false: none. */
struct plm_rules_stated {
#define PLM_RULE(key, value, unit, min, max, meaning, source) bool key;
#define PLM_RULE_CHOICE(key, value, words, meaning, source)   bool key;
#include <plimsoll/rules.def>
#undef PLM_RULE
#undef PLM_RULE_CHOICE
};

/* One line of the table of rules. */
struct plm_rule_info {
    const char *key;     /* as in a rules file, stable                    */
    const char *unit;    /* "" where it has none                          */
    const char *words;   /* choices split by '|', NULL for a number       */
    double value;        /* default (a choice: its index)                 */
    double min, max;     /* range of a number; 0 for a choice, whose words are its range */
    size_t offset;       /* of the field in struct plm_rules              */
    const char *meaning; /* one sentence                                  */
    const char *source;  /* publication, or "common practice, no source", or "convention" */
};

/* The defaults. */
PLM_API struct plm_rules plm_rules_default(void);

/* The table, in the order of rules.def. Static. */
PLM_API const struct plm_rule_info *plm_rules_table(size_t *count);

/*
 * Sets one rule from text, a locale-free number or a word of its choices.
 *   key    as in the table
 * Returns: PLM_STATUS_OK, or PLM_STATUS_ARGUMENT when the key is not known or
 *          the text is no number, no choice or out of range; rules unchanged.
 */
PLM_API enum plm_status plm_rules_set(struct plm_rules *rules, const char *key, const char *text);

/* Notes that a rule was stated; a key that is not known is passed over. */
PLM_API void plm_rules_stated_add(struct plm_rules_stated *stated, const char *key);
/* Whether a rule was stated; false for a key that is not known. stated: NULL none was. */
PLM_API bool plm_rules_stated_has(const struct plm_rules_stated *stated, const char *key);
/*
 * Lays those rules of `over` that `stated` names over rules, but for those that `kept` names.
 *   kept  NULL: none
 */
PLM_API void plm_rules_lay(struct plm_rules *rules, const struct plm_rules *over, const struct plm_rules_stated *stated,
                           const struct plm_rules_stated *kept);

/*
 * The value of one rule as plm_rules_set takes it: a locale-free number, or a word of its choices.
 *   size  bytes in buffer, 32 are enough
 * Returns: buffer; "" in it for a key that is not known.
 */
PLM_API char *plm_rules_get(const struct plm_rules *rules, const char *key, char *buffer, size_t size);

/* The known key nearest in spelling, for messages; never NULL. */
PLM_API const char *plm_rules_nearest(const char *key);

#ifdef __cplusplus
}
#endif

#endif
