/*
 * What the caller knows and the log lacks, laid over a dive that was read.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_LOG_OVERLAY_H
#define PLM_LOG_OVERLAY_H

#include <plimsoll/card.h>

/* What there is to lay over the dives of a log. */
struct plmi_overlay {
    const struct plm_card *card;   /* NULL none                                                     */
    const struct plm_stamp *start; /* of the first dive, where log and card tell none; NULL none    */
    bool has_zone;                 /* zone_min is that of starts without one                        */
    int zone_min;
};

/*
 * Lays all of it over a dive, in one edited copy; a dive over which nothing is to be laid stays as it is.
 *
 *   dive   [in,out] replaced by its copy; as it was on an error
 *   first  start of the log's first dive as the log tells it, NULL where dive is the first
 *
 * Returns: OK; INPUT, MEMORY reported.
 */
enum plm_status plmi_overlay_lay(struct plm_dive **dive, const struct plmi_overlay *overlay,
                                 const struct plm_stamp *first, const struct plm_rules *rules,
                                 const struct plm_diag_sink *sink);

#endif
