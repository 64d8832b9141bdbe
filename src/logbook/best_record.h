/*
 * The record that stands for a dive.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_LOGBOOK_BEST_RECORD_H
#define PLM_LOGBOOK_BEST_RECORD_H

#include "logbook/work.h"

/* Puts into a record how complete it is. Returns: OK; MEMORY reported. */
enum plm_status plmi_best_record_weigh(struct plm_logbook *logbook, const struct plm_dive *dive,
                                       struct plm_record *record);
/* The most complete record of an exposure becomes its best. changed: [out] it is another than before. */
enum plm_status plmi_best_record_choose(struct plm_logbook *logbook, int64_t exposure, bool *changed);

#endif
