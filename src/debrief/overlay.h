/*
 * What the caller knows and the log lacks, laid over a dive that was read.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_DEBRIEF_OVERLAY_H
#define PLM_DEBRIEF_OVERLAY_H

#include <plimsoll/diag.h>
#include <plimsoll/dive.h>
#include <plimsoll/rules.h>
#include <plimsoll/status.h>

/*
 * Gives a start to a dive whose source tells none; one that the source tells stays.
 *   dive   [in,out] replaced by its copy; as it was on an error
 */
enum plm_status plmi_overlay_start(struct plm_dive **dive, const struct plm_stamp *start, const struct plm_rules *rules,
                                   const struct plm_diag_sink *sink);
/* Gives a zone to a start that has a clock and no zone. */
enum plm_status plmi_overlay_zone(struct plm_dive **dive, int zone_min, const struct plm_rules *rules,
                                  const struct plm_diag_sink *sink);

#endif
