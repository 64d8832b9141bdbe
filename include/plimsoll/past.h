/*
 * What a diver carries at a moment, from what the dives before it left: tissues, oxygen clocks, doses of the day and of
 * the run of days. Pure; knows no ledger, no file and no clock.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_PAST_H
#define PLM_PAST_H

#include <stddef.h>
#include <stdint.h>

#include <plimsoll/replay.h>

#ifdef __cplusplus
extern "C" {
#endif

/* A dive that is over. */
struct plm_past_dive {
    /* [s] left the water before the moment asked for, >= 0; taken as 0 where it is less */
    double ended_s;
    double surface_bar;            /* [bar] of its place: the time since was spent there                 */
    struct plm_tissue end;         /* on leaving the water                                               */
    double anchor_bar;             /* NaN: none                                                          */
    double cns_pct;                /* [%] at its last sample, what was carried into it included          */
    double otu, cns_day_pct, esot; /* doses of this dive alone                                           */
    double cns_beyond_min;         /* [min] of this dive beyond the table of oxygen limits               */
    int64_t day;                   /* local day of its start, counted from 1970-01-01                    */
    double otu_run;                /* taken in its run of days before it, as it was carried into it      */
    int otu_run_days;              /* of that run, its own day included; 0: nothing was carried into it  */
};

/*
 * The state at a moment, on air at the surface since the last dive.
 *   past[count]  oldest first: all that left the water within 24 h before, and the last at least; count 0: saturated
 *                with air, nothing carried
 *   day          local day of the moment: the run of days without a day off ends with it
 * Doses of 24 hours count whole by the time their dives ended. otu_run and otu_run_days are over consecutive local days
 * with a dive, the day of the moment included.
 * Returns: a state with from = NULL: the caller names it.
 */
PLM_API struct plm_start plm_start_from_past(const struct plm_past_dive *past, size_t count, int64_t day,
                                             const struct plm_rules *rules);

#ifdef __cplusplus
}
#endif

#endif
