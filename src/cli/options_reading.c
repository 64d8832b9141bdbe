/*
 * Options on what a log does not say of itself, shared by commands that read logs. Must not read anything.
 * SPDX-License-Identifier: MIT
 */
#include <string.h>

#include <plimsoll/number.h>

#include "cli/command.h"

#define INTERVAL_MOST_S 3600
#define DIVE_MOST       999999999

static const char *set_dive(struct plmi_cli_settings *settings, const char *value)
{
    int64_t number;
    if (!plm_whole_parse(value, &number) || number < 1 || number > DIVE_MOST) {
        return "the number of a dive in its log, from 1";
    }
    settings->dive = number;
    return NULL;
}

static const char *set_card(struct plmi_cli_settings *settings, const char *value)
{
    settings->card = value;
    return NULL;
}

static const char *set_start(struct plmi_cli_settings *settings, const char *value)
{
    settings->start = value;
    return NULL;
}

static const char *set_zone(struct plmi_cli_settings *settings, const char *value)
{
    int offset_min;
    if (!plm_zone_parse(value, &offset_min)) {
        return "an offset from UTC, as +11:00 or Z";
    }
    settings->zone = value;
    return NULL;
}

static const char *set_columns(struct plmi_cli_settings *settings, const char *value)
{
    settings->columns = value;
    return NULL;
}

static const char *set_interval(struct plmi_cli_settings *settings, const char *value)
{
    double seconds;
    size_t length = strlen(value);
    if (length > 1 && value[length - 1] == 's') {
        length--;
    }
    if (!plm_number_parse(value, length, &seconds) || seconds <= 0 || seconds > INTERVAL_MOST_S) {
        return "seconds between rows, above 0 and at most 3600";
    }
    settings->interval_s = seconds;
    return NULL;
}

static const char *set_date_order(struct plmi_cli_settings *settings, const char *value)
{
    if (strcmp(value, "dmy") != 0 && strcmp(value, "mdy") != 0 && strcmp(value, "ymd") != 0) {
        return "one of dmy, mdy and ymd";
    }
    settings->date_order = value;
    return NULL;
}

static const char *set_zero(struct plmi_cli_settings *settings, const char *value)
{
    if (strcmp(value, "auto") != 0 && strcmp(value, "off") != 0) {
        return "auto or off";
    }
    settings->zero_auto = strcmp(value, "auto") == 0;
    return NULL;
}

static const struct plmi_cli_option rows[] = {
    {"dive", 0, "N", "only the N-th dive of a log, from 1; dives that cannot be read and are skipped count", set_dive},
    {"card", 0, "FILE",
     "dive card that says what the logs lack, as plimsoll-card(5) says; else the one beside a log that has its name "
     "and the ending .card",
     set_card},
    {"start", 0, "STAMP",
     "date and time at which the first dive began where the log lacks it, as 2031-05-06T09:30+02:00", set_start},
    {"zone", 0, "OFFSET", "time zone of starts that tell none, as +11:00; never taken from the machine", set_zone},
    {"columns", 0, "NAMES", "names of the columns of a table, split by commas, in place of its own", set_columns},
    {"interval", 0, "S", "seconds between the rows of a table without times", set_interval},
    {"date-order", 0, "dmy|mdy|ymd", "order of day, month and year in dates that can be read in several ways",
     set_date_order},
    {"zero", 0, "auto|off", "auto puts right a recorder that does not read zero at the surface; off unless told",
     set_zero},
};

const struct plmi_cli_options plmi_cli_options_reading = {"The log", rows, sizeof rows / sizeof rows[0]};
