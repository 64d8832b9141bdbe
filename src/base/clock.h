/*
 * Dates and clock times, ISO 8601; Gregorian, no leap seconds, no machine clock or zone.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_BASE_CLOCK_H
#define PLM_BASE_CLOCK_H

#include <plimsoll/stamp.h>

#include "base/text.h"

/* Days since 1970-01-01 of a date; false where there is no such date (years 1900..2200). */
bool plmi_clock_days(int year, int month, int day, int64_t *days);
/* The date of a count of days. */
void plmi_clock_date(int64_t days, int *year, int *month, int *day);
/*
 * "2031-05-06T09:30:00.5+02:00" and its shorter forms (no seconds, no zone, blank for T, date only, +hhmm, Z).
 * Returns: false for anything else; *stamp unchanged.
 */
bool plmi_clock_parse(const char *text, size_t n, struct plm_stamp *stamp);
/* Offset from UTC as "+02:00", "Z", "-0330". Returns: false for anything else. */
bool plmi_clock_zone_parse(const char *text, int *offset_min);
/* "2031-05-06T09:30:00+02:00": local time with its offset; parts that are unknown left out; "" when unknown. */
void plmi_clock_write(struct plmi_text *out, const struct plm_stamp *stamp);
/* Durations: "1:05:30" (h:mm:ss). Negative with a leading minus. */
void plmi_clock_duration(struct plmi_text *out, double seconds);

#endif
