/*
 * Values of elements, in our units; NaN where a value cannot be read, which is reported.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_IMPORT_UDDF_VALUES_H
#define PLM_IMPORT_UDDF_VALUES_H

#include "import/uddf/state.h"

double plmi_uddf_number(struct plmi_reader *reader, const char *text, const char *what, long line, long column);
double plmi_uddf_po2_bar(struct plmi_reader *reader, const char *text, long line, long column);
double plmi_uddf_temp_c(struct plmi_reader *reader, const char *text, long line, long column);
double plmi_uddf_tank_bar(struct plmi_reader *reader, const char *text, long line, long column);
/* A text of pascal that was parsed to value, in bar: rounded once, as if the text had said bar. */
double plmi_uddf_bar_of_pa(const char *text, double value);
double plmi_uddf_surface_bar(struct plmi_reader *reader, const char *text, long line, long column);

#endif
