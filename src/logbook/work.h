/*
 * The inside of a logbook: what work on a ledger keeps from one dive to the next, and how it tells of it.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_LOGBOOK_WORK_H
#define PLM_LOGBOOK_WORK_H

#include <plimsoll/logbook.h>

#include "base/text.h"
#include "logbook/kept_rules.h"

/* A stored log, open as it was added, and how far its dives were taken. Dives of one log are read in one go where they
 * are asked for in order. */
struct plmi_stored {
    char *opened;                                    /* everything that the opening depends on; NULL: nothing is open */
    char *start_clock, *zone, *columns, *date_order; /* as given, for as long as it is open         */
    void *bytes;
    struct plm_source *source;
    struct plm_card *card;
    struct plm_rules rules; /* those under which the record was added */
    struct plm_rules_stated stated;
    struct plm_log *log;
    struct plm_debrief *debrief;
    int index;                 /* of the dive taken last; 0 none */
    struct plm_diag_sink sink; /* to the logbook's, while loud */
    bool tell, loud;           /* tell: loud from the replay on, as the reading was reported before */
};

/* A dive that is being added, at hand with the debrief that read it; no dive: none. */
struct plmi_at_hand {
    struct plm_debrief *debrief;
    struct plm_dive *dive;
    const char *log_sha256;
    int log_index;
};

/* Whose dives a debrief is about, and by what rules; the dive debriefed before went under water at before_utc_ms. */
struct plmi_carried {
    const char *diver;
    const struct plm_rules *rules;
    int64_t before_utc_ms;
};

struct plm_logbook {
    struct plm_ledger *ledger;
    const struct plm_diag_sink *sink;
    struct plmi_kept_rules rules;
    struct plmi_stored stored;
    struct plmi_at_hand at_hand;
    struct plmi_carried carried;
    const struct plm_start *start; /* of the dive being replayed */
};

/* Tells of the ledger. file: NULL where it is about none. printf for strings and integers. */
void plmi_logbook_tell(const struct plm_logbook *logbook, enum plm_level level, const char *file, const char *format,
                       ...) PLMI_PRINTF(4, 5);

#endif
