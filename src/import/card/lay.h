/*
 * What a dive card puts in place of the log's word.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_IMPORT_CARD_LAY_H
#define PLM_IMPORT_CARD_LAY_H

#include <plimsoll/card.h>
#include <plimsoll/dive_builder.h>

/*
 * The start that a card gives to a dive. A start in a card is that of the first dive of a log; later dives keep their
 * distance from it where the log tells it.
 *
 *   start  [in,out] as the log tells it
 *   first  start of the log's first dive as the log tells it, NULL where the dive is the first
 */
void plmi_card_lay_start(struct plm_stamp *start, const struct plm_stamp *first, const struct plm_card *card);
/*
 * Lays all else that a card says over a dive.
 *
 *   builder  made of dive by plm_dive_builder_from
 *
 * Returns: OK, INPUT, MEMORY reported.
 */
enum plm_status plmi_card_lay(struct plm_dive_builder *builder, const struct plm_dive *dive,
                              const struct plm_card *card, const struct plm_diag_sink *sink);

#endif
