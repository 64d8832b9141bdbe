/*
 * Exposures computed one by one, in the order in which they go under water.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_LOGBOOK_CHAIN_H
#define PLM_LOGBOOK_CHAIN_H

#include "logbook/work.h"

/*
 * What an exposure's figures come to by its best record and the dives stored before it. The caller frees *debriefed and
 * *records in any case; they own the figures' texts.
 */
enum plm_status plmi_chain_compute(struct plm_logbook *logbook, const struct plm_exposure *exposure,
                                   struct plm_figures *figures, struct plm_debriefed **debriefed,
                                   struct plm_records **records);
/*
 * Computes a diver's exposures anew from a moment on, until one is met that starts as it did before. Within a
 * transaction.
 *   changed     exposure whose record changed: computed in any case; 0 none
 *   recomputed  [out] how many others were
 */
enum plm_status plmi_chain_follow(struct plm_logbook *logbook, const char *diver, int64_t from_utc_ms, int64_t changed,
                                  size_t *recomputed);

#endif
