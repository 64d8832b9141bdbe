/*
 * One diver's exposures day by day, and over runs of days without a day off. Pure: looks at what the ledger gave.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_LEDGER_DAYS_H
#define PLM_LEDGER_DAYS_H

#include <plimsoll/ledger.h>

#ifdef __cplusplus
extern "C" {
#endif

/* A local day with at least one dive; a dive belongs to the day on which it began. */
struct plm_day {
    int64_t day; /* counted from 1970-01-01                                                  */
    size_t dives;
    double runtime_s, max_depth_m; /* of all; the deepest                                                      */
    double cns_pct;                /* [%] highest at the end of a dive, what was carried in included           */
    double cns_day_pct;            /* [%] highest of the 24 h up to the end of a dive                          */
    double cns_beyond_min; /* [min] most in 24 h up to the end of a dive: above 0 the clocks are at least so much */
    double max_po2_bar;    /* highest                                                                  */
    double otu, esot;      /* of the day's dives                                                       */
    double surfacing_gradient_pct; /* highest                                                                  */
    size_t serious, caution, note; /* findings                                                                 */
    int run_days;                  /* [from 1] which day of its run: days since a day off                      */
    double otu_run;                /* of the run up to this day's end                                          */
    double otu_allowed;            /* REPEX: a day's share on a run of so many days                            */
    double otu_run_allowed;        /* REPEX: in total over so many days                                        */
};

/* Local day of a moment. */
PLM_API int64_t plm_day_of(int64_t utc_ms, int offset_min);

/*
 * The days of one diver.
 *   days     [out] room for as many as there are entries
 *   entries  [count] of one diver in the order of their start, from a day off on, or the runs come out too short;
 * those without figures are passed over Returns: how many days there are. Source: Hamilton, Kenyon, Peterson, REPEX,
 * NOAA 1988; rows beyond the first day from memory.
 */
PLM_API size_t plm_days_find(struct plm_day *days, const struct plm_entry *entries, size_t count);

/*
 * Those of days[*count], in order, that are within first..last, as numbers of plm_day_of.
 *   count  [in,out]
 * Returns: the first of them.
 */
PLM_API const struct plm_day *plm_days_within(const struct plm_day *days, size_t *count, int64_t first, int64_t last);
/* The same of entries[*count] of one diver, in order; each belongs to the day on which it goes under water. */
PLM_API const struct plm_entry *plm_entries_within(const struct plm_entry *entries, size_t *count, int64_t first,
                                                   int64_t last);

#ifdef __cplusplus
}
#endif

#endif
