/*
 * The dive card: what a log lacks or has wrong, stated by the diver in a small INI file beside it; plimsoll-card(5).
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_CARD_H
#define PLM_CARD_H

#include <plimsoll/diag.h>
#include <plimsoll/dive.h>
#include <plimsoll/rules.h>
#include <plimsoll/sink.h>
#include <plimsoll/source.h>
#include <plimsoll/stamp.h>

#ifdef __cplusplus
extern "C" {
#endif

struct plm_card; /* opaque, immutable */

/*
 * Reads a card. Every line that cannot be used is reported; a card with such a line is not used at all.
 * Returns: OK and *out (the caller frees), INPUT, LIMIT, IO, MEMORY reported.
 */
PLM_API enum plm_status plm_card_read(struct plm_card **out, struct plm_source *source, const struct plm_rules *rules,
                                      const struct plm_diag_sink *sink);
/* Who dived, NULL not stated. Owned by the card. */
PLM_API const char *plm_card_diver(const struct plm_card *card);
/* File of the plan, as the card names it (beside the card), NULL not stated. */
PLM_API const char *plm_card_plan(const struct plm_card *card);
/*
 * Lays the rules of a card's section [rules] over rules, but for those that `kept` names (NULL: none). Gradient factors
 * are not among them: they are facts about each dive, info->gf_low_pct.
 */
PLM_API void plm_card_rules_lay(const struct plm_card *card, struct plm_rules *rules,
                                const struct plm_rules_stated *kept);
/* The i-th mix that the card names; its texts are owned by the card, id and name are the card's word for it. Returns:
 * false behind the last; *mix is then left alone. */
PLM_API bool plm_card_mix(const struct plm_card *card, size_t i, struct plm_dive_mix *mix);
/* NULL is allowed. */
PLM_API void plm_card_free(struct plm_card *card);

/*
 * Writes the card of a dive as a whole: diver, start, recorder, site, surface pressure, altitude, water, gradient
 * factors, as far as they are known. Mixes and changes are the log's.
 *   rules_of  a card whose rules are written as well; NULL none
 * Returns: OK, MEMORY, or what the sink returns.
 */
PLM_API enum plm_status plm_card_write(const struct plm_dive_info *info, const struct plm_card *rules_of,
                                       const struct plm_sink *sink);

#ifdef __cplusplus
}
#endif

#endif
