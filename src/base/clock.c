/*
 * Dates and clock times of the proleptic Gregorian calendar. Must not read a clock,
 * a zone or a locale.
 * SPDX-License-Identifier: MIT
 */
#include "base/clock.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { YEAR_MIN = 1900, YEAR_MAX = 2200, OFFSET_MAX_MIN = 1080, MS_PER_DAY = 86400000, DAYS_MAX = 1000000000 };

static const int month_days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};

static bool is_leap(int year)
{
    return year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
}

bool plmi_clock_days(int year, int month, int day, int64_t *days)
{
    if (year < YEAR_MIN || year > YEAR_MAX || month < 1 || month > 12 || day < 1) {
        return false;
    }
    int length = month_days[month - 1] + (month == 2 && is_leap(year) ? 1 : 0);
    if (day > length) {
        return false;
    }
    /* Years that begin in March put the leap day last. */
    int shifted = month > 2 ? year : year - 1;
    int from_march = month > 2 ? month - 3 : month + 9;
    int64_t before = (int64_t)shifted * 365 + shifted / 4 - shifted / 100 + shifted / 400;
    *days = before + (153 * from_march + 2) / 5 + day - 1 - 719468;
    return true;
}

void plmi_clock_date(int64_t days, int *year, int *month, int *day)
{
    /* Beyond some millions of years there is no date to be had. */
    int64_t shifted = (days < -DAYS_MAX ? -DAYS_MAX : days > DAYS_MAX ? DAYS_MAX : days) + 719468;
    int64_t era = (shifted >= 0 ? shifted : shifted - 146096) / 146097;
    int64_t day_of_era = shifted - era * 146097;
    int64_t year_of_era = (day_of_era - day_of_era / 1460 + day_of_era / 36524 - day_of_era / 146096) / 365;
    int64_t day_of_year = day_of_era - (365 * year_of_era + year_of_era / 4 - year_of_era / 100);
    int64_t from_march = (5 * day_of_year + 2) / 153;
    *day = (int)(day_of_year - (153 * from_march + 2) / 5 + 1);
    *month = (int)(from_march < 10 ? from_march + 3 : from_march - 9);
    *year = (int)(year_of_era + era * 400 + (*month <= 2 ? 1 : 0));
}

/* What is left to read. */
struct cursor {
    const char *at, *end;
};

static bool take(struct cursor *cursor, char c)
{
    if (cursor->at == cursor->end || *cursor->at != c) {
        return false;
    }
    cursor->at++;
    return true;
}

/* Exactly width digits. */
static bool take_digits(struct cursor *cursor, int width, int *value)
{
    if (cursor->end - cursor->at < width) {
        return false;
    }
    int sum = 0;
    for (int i = 0; i < width; i++) {
        char c = cursor->at[i];
        if (c < '0' || c > '9') {
            return false;
        }
        sum = sum * 10 + (c - '0');
    }
    cursor->at += width;
    *value = sum;
    return true;
}

static bool take_date(struct cursor *cursor, int64_t *days)
{
    int year = 0;
    int month = 0;
    int day = 0;
    return take_digits(cursor, 4, &year) && take(cursor, '-') && take_digits(cursor, 2, &month) && take(cursor, '-') &&
           take_digits(cursor, 2, &day) && plmi_clock_days(year, month, day, days);
}

/* ".5": milliseconds, further digits cut. */
static bool take_fraction(struct cursor *cursor, int *ms)
{
    *ms = 0;
    if (!take(cursor, '.') && !take(cursor, ',')) {
        return true;
    }
    int unit = 100;
    int digits = 0;
    for (; cursor->at < cursor->end && *cursor->at >= '0' && *cursor->at <= '9'; cursor->at++, digits++) {
        *ms += (*cursor->at - '0') * unit;
        unit /= 10;
    }
    return digits > 0;
}

static bool take_time(struct cursor *cursor, int64_t *ms)
{
    int hour = 0;
    int minute = 0;
    int second = 0;
    int fraction = 0;
    if (!take_digits(cursor, 2, &hour) || !take(cursor, ':') || !take_digits(cursor, 2, &minute)) {
        return false;
    }
    if (take(cursor, ':') && (!take_digits(cursor, 2, &second) || !take_fraction(cursor, &fraction))) {
        return false;
    }
    *ms = ((int64_t)hour * 3600 + minute * 60 + second) * 1000 + fraction;
    return hour < 24 && minute < 60 && second < 60;
}

/* "Z", "+02:00", "+0200", "+02". */
static bool take_zone(struct cursor *cursor, int *offset_min)
{
    if (take(cursor, 'Z') || take(cursor, 'z')) {
        *offset_min = 0;
        return true;
    }
    bool west = take(cursor, '-');
    if (!west && !take(cursor, '+')) {
        return false;
    }
    int hours = 0;
    int minutes = 0;
    if (!take_digits(cursor, 2, &hours)) {
        return false;
    }
    if (cursor->at < cursor->end && ((void)take(cursor, ':'), !take_digits(cursor, 2, &minutes))) {
        return false;
    }
    int offset = hours * 60 + minutes;
    *offset_min = west ? -offset : offset;
    return minutes < 60 && offset <= OFFSET_MAX_MIN;
}

static bool is_blank(char c)
{
    return c == ' ' || c == '\t' || c == '\r' || c == '\n';
}

bool plmi_clock_parse(const char *text, size_t n, struct plm_stamp *stamp)
{
    struct cursor cursor = {text, text + n};
    while (cursor.at < cursor.end && is_blank(*cursor.at)) {
        cursor.at++;
    }
    while (cursor.at < cursor.end && is_blank(cursor.end[-1])) {
        cursor.end--;
    }
    struct plm_stamp found = {.known = true};
    int64_t days = 0;
    int64_t ms = 0;
    if (!take_date(&cursor, &days)) {
        return false;
    }
    if (take(&cursor, 'T') || take(&cursor, 't') || take(&cursor, ' ')) {
        found.has_clock = true;
        if (!take_time(&cursor, &ms)) {
            return false;
        }
        (void)take(&cursor, ' ');
        found.has_zone = cursor.at < cursor.end;
        if (found.has_zone && !take_zone(&cursor, &found.offset_min)) {
            return false;
        }
    }
    if (cursor.at != cursor.end) {
        return false;
    }
    found.local_ms = days * MS_PER_DAY + ms;
    *stamp = found;
    return true;
}

bool plmi_clock_zone_parse(const char *text, int *offset_min)
{
    struct cursor cursor = {text, text + strlen(text)};
    int found = 0;
    if (!take_zone(&cursor, &found) || cursor.at != cursor.end) {
        return false;
    }
    *offset_min = found;
    return true;
}

void plmi_clock_write(struct plmi_text *out, const struct plm_stamp *stamp)
{
    if (!stamp->known) {
        return;
    }
    int64_t days = stamp->local_ms / MS_PER_DAY - (stamp->local_ms % MS_PER_DAY < 0 ? 1 : 0);
    int rest = (int)(stamp->local_ms % MS_PER_DAY);
    int ms = rest < 0 ? rest + MS_PER_DAY : rest;
    int year = 0;
    int month = 0;
    int day = 0;
    plmi_clock_date(days, &year, &month, &day);
    plmi_text_printf(out, "%04d-%02d-%02d", year, month, day);
    if (!stamp->has_clock) {
        return;
    }
    plmi_text_printf(out, "T%02d:%02d:%02d", ms / 3600000, ms / 60000 % 60, ms / 1000 % 60);
    if (ms % 1000 != 0) {
        plmi_text_printf(out, ".%03d", ms % 1000);
    }
    if (stamp->has_zone) {
        int64_t offset = stamp->offset_min < 0 ? -(int64_t)stamp->offset_min : stamp->offset_min;
        plmi_text_printf(out, "%c%02d:%02d", stamp->offset_min < 0 ? '-' : '+', (int)(offset / 60), (int)(offset % 60));
    }
}

void plmi_clock_duration(struct plmi_text *out, double seconds)
{
    double rounded = round(seconds);
    if (!(fabs(rounded) < 1e15)) {
        return;
    }
    int64_t whole = (int64_t)fabs(rounded);
    plmi_text_printf(out, "%s%lld:%02d:%02d", rounded < 0 ? "-" : "", (long long)(whole / 3600), (int)(whole / 60 % 60),
                     (int)(whole % 60));
}

bool plm_stamp_parse(const char *text, struct plm_stamp *stamp)
{
    return plmi_clock_parse(text, strlen(text), stamp);
}

char *plm_stamp_write(const struct plm_stamp *stamp, char *buffer, size_t size)
{
    struct plmi_text text;
    plmi_text_init(&text);
    plmi_clock_write(&text, stamp);
    (void)snprintf(buffer, size, "%s", text.failed || text.bytes == NULL ? "" : text.bytes);
    plmi_text_free(&text);
    return buffer;
}

bool plm_zone_parse(const char *text, int *offset_min)
{
    return plmi_clock_zone_parse(text, offset_min);
}

struct plm_stamp plm_stamp_of(int64_t utc_ms, int offset_min)
{
    int64_t shift_ms = (int64_t)offset_min * 60000;
    bool high = shift_ms > 0 && utc_ms > INT64_MAX - shift_ms;
    bool low = shift_ms < 0 && utc_ms < INT64_MIN - shift_ms;
    return (struct plm_stamp){.local_ms = high  ? INT64_MAX
                                          : low ? INT64_MIN
                                                : utc_ms + shift_ms,
                              .offset_min = offset_min,
                              .known = true,
                              .has_zone = true,
                              .has_clock = true};
}

int64_t plm_stamp_utc_ms(const struct plm_stamp *stamp)
{
    return stamp->local_ms - (int64_t)stamp->offset_min * 60000;
}
