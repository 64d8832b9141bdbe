/*
 * Time really spent at the stop depths of a grid. Pure.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REPLAY_STOPS_H
#define PLM_REPLAY_STOPS_H

#include <plimsoll/replay.h>

/* The stop depths: last_m, and from there every step_m down. Neighbours of a stop are the next depths of the grid, the
 * surface above the last. */
struct plmi_stop_grid {
    double last_m, step_m;
};
struct plmi_stop_grid plmi_stop_grid_of(const struct plm_rules *rules);
double plmi_stop_depth_m(const struct plmi_stop_grid *grid, int index);
/* The index of the stop next to a depth, from 0; -1: nearer to the surface than to the last stop. */
int plmi_stop_index(const struct plmi_stop_grid *grid, double depth_m);
/* The band of a stop: between the half-way depths to its neighbours. */
double plmi_stop_upper_m(const struct plmi_stop_grid *grid, int index);
double plmi_stop_lower_m(const struct plmi_stop_grid *grid, int index);

/*
 * Adds the seconds that each band was dwelt in, along the straight legs between points first and last.
 *   seconds  [s] seconds[bands]; deeper bands are left out
 */
void plmi_stop_seconds(double *seconds, int bands, const struct plmi_stop_grid *grid, const struct plm_point *points,
                       size_t first, size_t last);

#endif
