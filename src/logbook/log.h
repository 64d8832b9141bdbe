/*
 * A log whose dives are being added: everything that its records have alike.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_LOGBOOK_LOG_H
#define PLM_LOGBOOK_LOG_H

#include "logbook/work.h"

struct plm_logbook_log {
    struct plm_logbook *logbook;
    const struct plm_rules *in_force; /* the caller's */
    char *rules_text;                 /* and as a rules file */
    struct plm_rules rules;           /* and as they are read from it */
    struct plm_rules_stated stated;   /* those of them that stand before the card and the log */
    struct plm_ledger_log log;
    struct plm_record record; /* what is known beside a dive: log, card, rules, what was stated */
    struct plm_log *read;
    struct plm_debrief *debrief;
};

#endif
