/*
 * A record as a series of depth over time, asked at any moment. Knows nothing of gases.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_TEAM_SERIES_H
#define PLM_TEAM_SERIES_H

#include <stdbool.h>
#include <stddef.h>

#include <plimsoll/dive.h>

struct plmi_series {
    size_t count;
    double *time_s, *depth_m; /* [count], time strictly rising; owned */
    double step_s;            /* usual interval between samples       */
    double gap_s;             /* neighbours further apart than this leave a gap between them */
    double quantum_m;         /* step of the recorded depths          */
    bool dry_start, dry_end;  /* begins, ends at the surface          */
};

/* Returns: false without memory. Free with plmi_series_free also then. */
bool plmi_series_init(struct plmi_series *series, const struct plm_dive *dive);
void plmi_series_free(struct plmi_series *series);

/*
 * Depth at a moment, linear between samples; 0 before a dry start and after a dry end; NaN inside a gap or where
 * nothing is known.
 *   hint  [in,out] index where the search begins; asking in order of time costs next to nothing
 *   slope [out, m/s] of the segment; 0 outside; may be NULL
 */
double plmi_series_depth_m(const struct plmi_series *series, double time_s, size_t *hint, double *slope_m_s);

#endif
