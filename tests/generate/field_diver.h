/*
 * A dive as people dive it: the schedule of the model is kept, and waves, currents, late hands and one mishap are laid
 * over it. Gives the truth second by second; knows no recorder.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_GENERATE_FIELD_DIVER_H
#define PLM_GENERATE_FIELD_DIVER_H

#include "generate/course.h"

/* What happens to every dive. All 0: still water, a diver who is exact, stops of whole minutes. */
struct gen_nature {
    double wave_m, wave_s;        /* swell at the surface: half height, period       */
    double sag_low_m, sag_high_m; /* a stop is held so much deeper than it is */
    double wander_m;              /* slow deviation at stops                          */
    double unsteady;              /* share by which the rate of an ascent wanders           */
    double bottom_m;              /* slow deviation at the bottom                     */
    double yoyo_m, yoyo_s;        /* up and down at the bottom: half height, period   */
    double late_s;                /* stops are left, and mixes taken, up to so late   */
    double last_stop_m;           /* 3 or 6                                           */
    double bob_s, bob_m, head_m;  /* at the surface afterwards: how long, between these depths, 0 s: flat */
    bool alive;                   /* false: an exact dive                             */
};

/* What goes wrong on a dive, at most one of them; zeros: nothing. */
struct gen_mishap {
    struct {
        double rate_m_min, from_m, to_m;
        bool through; /* past all stops between; else the way from one stop to the next alone, with to_m < 0 to the
                         surface */
    } rush;           /* an ascent at another rate from between two depths */
    struct {
        double least_s, left_s;
        bool last;
    } cut; /* the first stop of at least so many seconds (or the last) is left so long before it clears */
    struct {
        double by_m, for_s;
    } rise; /* above a stop that is being held */
    struct {
        double by_bar, for_s;
        bool ascending;
    } astray; /* the loop is not at its set point: at the bottom, or from the first stop on */
    struct {
        double down_m, for_s;
    } again;        /* down once more from the first stop, or half way where there is none */
    bool no_travel; /* the bottom mix is breathed from the surface on */
};

/* The truth of one second. */
struct gen_second {
    double over_points; /* the gradient less what its line allows, in points */
    double ceiling_m, po2_bar, density_g_l, narcotic_m;
};

/* When a mishap acted, and how much of it there was. */
struct gen_mark {
    double from_s, to_s, value; /* from_s NaN: it found no place */
};

struct gen_lived {
    struct gen_course course;
    struct gen_second *seconds; /* [course.count] */
    size_t second_capacity;
    struct gen_mark mark;
    double descent_s, bottom_begin_s, bottom_end_s, surfaced_s;
    double left_loop_s; /* NaN: not left */
    double owed_min;    /* stop time still wanted on surfacing */
    double cns_pct, cns_day_pct, otu;
    bool counterdiffusion; /* a switch by more than one fifth */
};

/*
 * Lives through a dive. dive: depths, mixes, set points and rates; travel: a mix for the way down to travel_m, NULL
 * none. Returns: false without memory, or where the dive never ends. Free with gen_lived_free in any case.
 */
struct gen_travel {
    struct plm_mix mix;
    double to_m; /* 0: none */
};
bool gen_lived_find(struct gen_lived *out, const struct gen_dive *dive, const struct gen_travel *travel,
                    const struct gen_nature *nature, const struct gen_mishap *mishap, uint64_t seed);
void gen_lived_free(struct gen_lived *lived);

#endif
