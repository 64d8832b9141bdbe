/*
 * Figures of a dive against those that were stored, and against the start that they were made from.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_LOGBOOK_FIGURES_H
#define PLM_LOGBOOK_FIGURES_H

#include <plimsoll/ledger.h>
#include <plimsoll/replay.h>

/* Whether figures were made from this very start. */
bool plmi_figures_start_same(const struct plm_figures *figures, const struct plm_start *start);
/* The first figure that differs to the last bit, as its name, with both values; NULL: all are the same. */
const char *plmi_figures_differ(const struct plm_figures *a, const struct plm_figures *b, double *value_a,
                                double *value_b);

#endif
