/*
 * Times as tables write them: elapsed with colons, clocks, dates in any order of day and month.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_IMPORT_TABLE_TIME_H
#define PLM_IMPORT_TABLE_TIME_H

#include <plimsoll/stamp.h>

#include "base/clock.h"

enum plmi_date_order { PLMI_DATE_ORDER_UNKNOWN, PLMI_DATE_ORDER_DMY, PLMI_DATE_ORDER_MDY, PLMI_DATE_ORDER_YMD };

/* "dmy", "mdy", "ymd"; UNKNOWN for anything else, NULL too. */
enum plmi_date_order plmi_date_order_parse(const char *text);
const char *plmi_date_order_text(enum plmi_date_order order);

/* "75:30", "1:15:30", "0:05.5": minutes and seconds, hours before them where there are two colons; hour_min: one colon
 * parts hours and minutes. A unit may stand behind; h parts hours and minutes.
 * Returns: false for anything else. */
bool plmi_elapsed_parse(const char *text, bool hour_min, int64_t *time_ms);
/* A time of day: "9:30", "09:30:15", "09:30:15,5", "9:30:15 PM". Returns: false for anything else. */
bool plmi_daytime_parse(const char *text, int64_t *time_ms);

/* The three numbers of a date as they stand. Returns: false for anything else. */
bool plmi_date_parts(const char *text, int parts[3], bool *year_first);
/* A date read in an order (years first are known by their four digits whatever the order). Days since 1970-01-01. */
bool plmi_date_parse(const char *text, enum plmi_date_order order, int64_t *days);
/* Date and clock in one text, ISO 8601 or a date of the order given and a clock behind it. */
bool plmi_stamp_parse(const char *text, enum plmi_date_order order, struct plm_stamp *stamp);

#endif
