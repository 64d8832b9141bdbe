/*
 * The curves of one dive: a value a sample, chosen and rounded once for every picture and every reading of one.
 * Lives no longer than the view. Must not replay or judge.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REPORT_HTML_CURVES_H
#define PLM_REPORT_HTML_CURVES_H

#include "base/arena.h"
#include "report/view/view.h"

/* NaN where a value does not exist: no ceiling, no set point, no cell. */
enum plmi_curves_column {
    PLMI_CURVES_TIME,                                /* [s]                                                      */
    PLMI_CURVES_DEPTH,                               /* [m]                                                      */
    PLMI_CURVES_CEILING,                             /* [m]                                                      */
    PLMI_CURVES_CLEARANCE,                           /* [m] water between diver and ceiling, negative above it   */
    PLMI_CURVES_PO2,                                 /* [bar] as the model took it                               */
    PLMI_CURVES_SETPOINT,                            /* [bar] on a loop                                          */
    PLMI_CURVES_CELL,                                /* [bar] PLM_CELLS columns                                  */
    PLMI_CURVES_RATE = PLMI_CURVES_CELL + PLM_CELLS, /* [m/min] positive while ascending   */
    PLMI_CURVES_RATE_LIMIT,                          /* [m/min] at this depth                                    */
    PLMI_CURVES_GRADIENT,                            /* [%] the largest                                          */
    PLMI_CURVES_LEADING,                             /* 1..16, the compartment that has it                       */
    PLMI_CURVES_SURFACING,                           /* [%]                                                      */
    PLMI_CURVES_CNS,                                 /* [%]                                                      */
    PLMI_CURVES_DENSITY,                             /* [g/L]                                                    */
    PLMI_CURVES_LEVEL,                               /* ln of ambient over surface pressure: how depth is drawn  */
    PLMI_CURVES_CEILING_LEVEL,                       /* the same of the ceiling                                  */
    PLMI_CURVES_BREATHED,                            /* index into breathed                                      */
    PLMI_CURVES_LOADING,                             /* [%] gradient, a column a compartment                     */
    PLMI_CURVES_COLUMNS = PLMI_CURVES_LOADING + PLM_COMPARTMENTS
};

/* The column of a cell 0.., and of a compartment 0..15. */
static inline enum plmi_curves_column plmi_curves_cell(int cell)
{
    return (enum plmi_curves_column)((int)PLMI_CURVES_CELL + cell);
}
static inline enum plmi_curves_column plmi_curves_loading(int compartment)
{
    return (enum plmi_curves_column)((int)PLMI_CURVES_LOADING + compartment);
}

struct plmi_curves {
    struct plmi_arena arena;                   /* owns all columns    */
    size_t count;                              /* samples, at least 2 */
    const double *column[PLMI_CURVES_COLUMNS]; /* count values each   */
    bool known[PLMI_CURVES_COLUMNS];           /* whether any value is */
    double surface_bar, bar_per_m;
    const char **breathed; /* "closed 6/84", in the order of first use */
    size_t breathed_count;
    size_t plan_count;                      /* 0: no plan */
    const double *plan_time_s, *plan_level; /* on the dive's runtime */
};

/* Returns: NULL without memory. The caller frees. */
struct plmi_curves *plmi_curves_new(const struct plmi_view *view);
/* NULL is allowed. */
void plmi_curves_free(struct plmi_curves *curves);

/* How a depth is drawn: equal heights for equal factors of pressure. */
double plmi_curves_level(const struct plmi_curves *curves, double depth_m);
/* The sample at or last before time_s. */
size_t plmi_curves_at(const struct plmi_curves *curves, double time_s);
/* Least and greatest known value of a column; NaN where none is. */
double plmi_curves_least(const struct plmi_curves *curves, enum plmi_curves_column column);
double plmi_curves_most(const struct plmi_curves *curves, enum plmi_curves_column column);
/* [min] half-time for nitrogen of compartment 0..15 */
double plmi_curves_half_time_min(const struct plmi_view *view, int compartment);

#endif
