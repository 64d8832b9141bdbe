/*
 * One body in the water, seen by recorders whose faults are known: the truth that tests of laying records together hold
 * against. Must not call what is tested: the builder alone.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_SUPPORT_PLANTED_H
#define PLM_SUPPORT_PLANTED_H

#include <plimsoll/dive.h>

/* [s] from the first to the last moment under water, and [ms, UTC] the moment that true time 0 stands for. */
#define PLANTED_END_S       5460.0
#define PLANTED_ZERO_UTC_MS INT64_C(1930000000000)

/*
 * [m] where a body is at a true time: 60 m until 1800 s, stops at 24, 12 and 6 m, at the surface from PLANTED_END_S on.
 * From way to way 9 m/min and more. body: bodies have ups and downs of their own.
 */
double planted_depth_m(int body, double true_s);

/* How a recorder sees it. Zeroed: every second from true time 0, right in everything, without a zone. */
struct planted {
    const char *recorder, *diver;
    int body;
    double begin_s, end_s;    /* true times of the first and the last sample; end_s 0: 40 s after the dive */
    double step_s;            /* by its own clock; 0: 1 s                                */
    double fast_ppm;          /* its seconds in a million true ones, less a million      */
    double behind_s;          /* its clock shows so much less than the truth when it begins */
    double less_m, less_frac; /* shows depth * (1 - less_frac) - less_m                  */
    double wrong_m, wrong_from_s, wrong_to_s; /* and so much more from one true time up to another */
    double wrong_again_s;                     /* and once more so much later; 0: not */
    double gap_from_s, gap_to_s;              /* true times without samples between                      */
    int offset_min;                           /* zone, where has_zone                                    */
    bool has_zone;
    bool cells;         /* three, at 1.3 bar                                       */
    double low_until_s; /* its set point is 0.7 bar until this true time, then 1.3 */
    double surface_bar; /* 0: not told                                             */
};

/* The record; the caller frees. */
struct plm_dive *planted_record(const struct planted *planted);

#endif
