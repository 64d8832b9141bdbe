/*
 * Stored dives read again.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_LOGBOOK_STORED_H
#define PLM_LOGBOOK_STORED_H

#include "logbook/work.h"

/* Nothing is open yet. */
void plmi_stored_init(struct plm_logbook *logbook);
/* A stored dive debriefed from a start state: the one at hand, or read as when it was added. The caller frees *out.
 * Returns: OK; INPUT, IO, MEMORY reported. */
enum plm_status plmi_stored_debrief(struct plm_logbook *logbook, const struct plm_record *record,
                                    const struct plm_start *start, struct plm_debriefed **out);
/* How a debrief for the ledger goes about it: what no figure needs is left out, and each dive begins with
 * logbook->start. */
void plmi_stored_options(struct plm_logbook *logbook, struct plm_debrief_options *options);
/* Closes the log that is open; what is reported on it stays as it was. */
void plmi_stored_close(struct plmi_stored *stored);

#endif
