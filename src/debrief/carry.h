/*
 * What a diver carries from one dive of a file into the next. Holds no more than the end of the last dive.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_DEBRIEF_CARRY_H
#define PLM_DEBRIEF_CARRY_H

#include <plimsoll/dive.h>
#include <plimsoll/replay.h>

#include "base/diags.h"

struct plmi_carry {
    const struct plm_start *first; /* before the first dive of the file; NULL: saturated with air */
    bool any;                      /* a dive has ended                                            */
    struct plm_start end;          /* on leaving the water                                        */
    double surface_bar;            /* [bar] of the place where it ended                           */
    int group, index;
    struct plm_stamp start;
    double duration_s; /* of its record                                               */
    double wet_to_s;   /* [s] from its start until it left the water                   */
    bool doubted;      /* an interval was not known, or not sure  */
    bool in_water;     /* its record ends there: what it left is not all known        */
    char from[48];     /* "dive 1"                                                    */
};

void plmi_carry_init(struct plmi_carry *carry, const struct plm_start *first);
/* The state in which this dive starts. Its text is borrowed from carry until plmi_carry_keep. */
struct plm_start plmi_carry_into(struct plmi_carry *carry, const struct plm_dive *dive, const struct plm_rules *rules,
                                 struct plmi_diags *diags);
/* Keeps the end of a dive for the next. */
void plmi_carry_keep(struct plmi_carry *carry, const struct plm_dive *dive, const struct plm_trace *trace,
                     const struct plm_rules *rules);

#endif
