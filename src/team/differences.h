/*
 * One look at two aligned records: a const row of the table in differences.c; adds what the two tell differently.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_TEAM_DIFFERENCES_H
#define PLM_TEAM_DIFFERENCES_H

#include "team/comparison.h"

/* Looks at one kind. Returns: OK or an error that is reported. */
typedef enum plm_status plmi_difference_look(const struct plmi_comparison *comparison,
                                             struct plmi_difference_list *list);

plmi_difference_look plmi_differ_setpoint, plmi_differ_mix, plmi_differ_mode, plmi_differ_measured, plmi_differ_depth,
    plmi_differ_gap, plmi_differ_surface, plmi_differ_clock, plmi_differ_diver;

/* All looks in the order of the table. */
enum plm_status plmi_differences_find(const struct plmi_comparison *comparison, struct plmi_difference_list *list);

#endif
