/*
 * The oxygen pressure of a loop over a recording: cells, logged values, set points, and what is taken between
 * them. Must not know of ambient pressure: what a loop can't hold is clipped by leg.h.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REPLAY_LOOP_H
#define PLM_REPLAY_LOOP_H

#include <plimsoll/dive.h>
#include <plimsoll/rules.h>

/* Where the oxygen pressure of a leg comes from; bits, so that a dive can tell all that it used. */
enum plmi_oxygen_source {
    PLMI_OXYGEN_OPEN = 1,     /* open circuit */
    PLMI_OXYGEN_CELLS = 2,    /* measured cells, their median */
    PLMI_OXYGEN_LOGGED = 4,   /* logged PO2 */
    PLMI_OXYGEN_SETPOINT = 8, /* set point in force */
    PLMI_OXYGEN_DILUENT = 16, /* closed, nothing known: the diluent as open circuit */
    PLMI_OXYGEN_SUPPLY = 32,  /* semi-closed, nothing known: the supply mix as open circuit */
    PLMI_OXYGEN_ALONE =
        64 /* a loop whose diluent is pure oxygen: that, at ambient pressure, whatever is measured or set */
};
/* Those that are breathed as fractions of a mix and not as a PO2. */
#define PLMI_OXYGEN_BY_MIX (PLMI_OXYGEN_OPEN | PLMI_OXYGEN_DILUENT | PLMI_OXYGEN_SUPPLY | PLMI_OXYGEN_ALONE)

/* The samples of a dive with the settings that they name. Borrowed. */
struct plmi_recording {
    const struct plm_sample *samples;
    size_t count;
    const struct plm_setting *settings;
    const struct plm_dive_mix *mixes;
};
struct plmi_recording plmi_recording_of(const struct plm_dive *dive);

/* Measured PO2 at each sample on the loop, NaN where none is taken; NULL for a dive without a loop. */
struct plmi_loop_track {
    double *measured_bar;
    unsigned char *from; /* PLMI_OXYGEN_CELLS or _LOGGED */
};

/* [bar] a cell that reads less is dead: nobody is conscious on so little oxygen. Convention. */
#define PLMI_CELL_LEAST_BAR 0.05
/* Whether a cell reads anything; false for NaN. */
bool plmi_cell_lives(double cell_bar);
/* [bar] median of the living cells, the mean of both where there are two; NaN where none lives. */
double plmi_cells_median(const double cell_bar[PLM_CELLS]);

/* cell: [from 1] measured is what this one alone reads, the median where it reads nothing; 0: the median.
 * Owns: the caller, by plmi_loop_track_free. Returns: false without memory. */
bool plmi_loop_track_find(struct plmi_loop_track *track, const struct plmi_recording *recording,
                          const struct plm_rules *rules, int cell);
void plmi_loop_track_free(struct plmi_loop_track *track);

/* The oxygen of the leg from sample i to the next; start_bar and end_bar only where it is not PLMI_OXYGEN_BY_MIX. */
struct plmi_loop_leg {
    enum plmi_oxygen_source from;
    double start_bar, end_bar;
};
struct plmi_loop_leg plmi_loop_leg_find(const struct plmi_loop_track *track, const struct plmi_recording *recording,
                                        const struct plm_rules *rules, size_t i);

#endif
