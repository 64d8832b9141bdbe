/*
 * What recorders do to a log, as rows of the table of faults have it.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_GENERATE_FIELD_FAULTS_H
#define PLM_GENERATE_FIELD_FAULTS_H

#include "generate/field.h"

/* Samples come by the clock, so that one that is missing or wrong is seen to be so. */
void gen_plant_clocked(struct gen_field_dive *field, struct gen_random *random);
/* Each changes the record and tells the line of truth; false: no place. */
bool gen_spoil_stuck(struct gen_line *line, struct gen_made *made);
bool gen_spoil_limited(struct gen_line *line, struct gen_made *made);
bool gen_spoil_off(struct gen_line *line, struct gen_made *made);
bool gen_spoil_gap_short(struct gen_line *line, struct gen_made *made);
bool gen_spoil_gap_long(struct gen_line *line, struct gen_made *made);
bool gen_spoil_spike(struct gen_line *line, struct gen_made *made);
bool gen_spoil_two(struct gen_line *line, struct gen_made *made);
bool gen_spoil_zero(struct gen_line *line, struct gen_made *made);
bool gen_spoil_overflow(struct gen_line *line, struct gen_made *made);
bool gen_spoil_negative(struct gen_line *line, struct gen_made *made);
/* The clock of a second recorder. */
void gen_plant_clock(struct gen_field_dive *field, struct gen_random *random);
bool gen_spoil_clock(struct gen_line *line, struct gen_made *made);

#endif
