/*
 * Units that recorders and exports write, and what they are in ours: m, bar, C, s.
 * A pure table; which unit a column has is not decided here.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_BASE_UNITS_H
#define PLM_BASE_UNITS_H

#include <stddef.h>

enum plmi_quantity {
    PLMI_QUANTITY_DEPTH,       /* [m]   */
    PLMI_QUANTITY_PRESSURE,    /* [bar] as written: absolute or gauge stays what it is */
    PLMI_QUANTITY_TEMPERATURE, /* [C]   */
    PLMI_QUANTITY_TIME         /* [s]   */
};

/* ours = (value + shift) * factor / divisor: factor and divisor are whole or short, so that a value loses
 * nothing that one rounding does not (130000 Pa is exactly what "1.3" bar reads as). */
struct plmi_unit {
    const char *name; /* ASCII case does not matter, UTF-8 */
    enum plmi_quantity quantity;
    double shift, factor, divisor;
};

/* The table, names of one unit beside each other. Static. */
const struct plmi_unit *plmi_units(size_t *count);
/* The unit of this name, of n bytes, for this quantity; NULL where there is none. */
const struct plmi_unit *plmi_unit_find(enum plmi_quantity quantity, const char *name, size_t n);
/* The value in ours. */
double plmi_unit_convert(const struct plmi_unit *unit, double value);

#endif
