/*
 * Reading times and dates of tables. Must not guess an order; plan_time.c finds it in the data.
 * SPDX-License-Identifier: MIT
 */
#include "import/table/time.h"

#include "import/format/tokens.h"
#include "import/table/units.h"

#include <string.h>

#include "base/text.h"

#define DAY_MS     INT64_C(86400000)
#define NUMBER_MAX 100000000

enum plmi_date_order plmi_date_order_parse(const char *text)
{
    if (text == NULL) {
        return PLMI_DATE_ORDER_UNKNOWN;
    }
    if (plmi_text_same(text, "dmy")) {
        return PLMI_DATE_ORDER_DMY;
    }
    if (plmi_text_same(text, "mdy")) {
        return PLMI_DATE_ORDER_MDY;
    }
    return plmi_text_same(text, "ymd") ? PLMI_DATE_ORDER_YMD : PLMI_DATE_ORDER_UNKNOWN;
}

const char *plmi_date_order_text(enum plmi_date_order order)
{
    static const char *const TEXTS[] = {"unknown", "day, month, year", "month, day, year", "year, month, day"};
    return TEXTS[order];
}

/* A run of digits; moves *at behind it. -1 where there is none or it is too large. */
static int number_at(const char **at)
{
    int value = 0;
    if (**at < '0' || **at > '9') {
        return -1;
    }
    while (**at >= '0' && **at <= '9') {
        value = value * 10 + (**at - '0');
        if (value > NUMBER_MAX) {
            return -1;
        }
        (*at)++;
    }
    return value;
}

/* A fraction of a second behind '.' or ',', to the millisecond, rounded down; *at stays where there is none. */
static int fraction_ms(const char **at)
{
    int ms = 0;
    int weight = 100;
    if (**at != '.' && **at != ',') {
        return 0;
    }
    for ((*at)++; **at >= '0' && **at <= '9'; (*at)++) {
        ms += (**at - '0') * weight;
        weight /= 10;
    }
    return ms;
}

/* Up to three numbers parted by colons and a fraction. Returns how many, 0 for none. */
static int colon_parts(const char **at, int parts[3], int *ms)
{
    int count = 0;
    for (;;) {
        parts[count] = number_at(at);
        if (parts[count++] < 0) {
            return 0;
        }
        if (count == 3 || **at != ':') {
            break;
        }
        (*at)++;
    }
    *ms = fraction_ms(at);
    return count;
}

static bool at_end(const char *at)
{
    return at[strspn(at, " \t")] == '\0';
}

/* A unit of time behind colons: 'h' where they part hours from minutes, ' ' for another or none, '\0' for other text.
 */
static char colon_unit(const char *at)
{
    struct plmi_tokens tokens;
    if (at_end(at)) {
        return ' ';
    }
    plmi_tokens_split(&tokens, at);
    const struct plmi_unit *unit = tokens.count == 1 ? plmi_unit_of_word(tokens.token[0], PLMI_DIMENSION_TIME) : NULL;
    return unit == NULL ? '\0' : unit->name[0] == 'h' ? 'h' : ' ';
}

bool plmi_elapsed_parse(const char *text, bool hour_min, int64_t *time_ms)
{
    int parts[3] = {0, 0, 0};
    int ms = 0;
    const char *at = text + strspn(text, " \t");
    int count = colon_parts(&at, parts, &ms);
    char unit = colon_unit(at);
    hour_min = hour_min || unit == 'h';
    if (count < 2 || unit == '\0' || parts[count - 1] > 59 || (count == 3 && parts[1] > 59)) {
        return false;
    }
    int64_t seconds =
        count == 3 ? (int64_t)parts[0] * 3600 + parts[1] * 60 + parts[2] : (int64_t)parts[0] * 60 + parts[1];
    if (count == 2 && hour_min) {
        seconds *= 60;
    }
    *time_ms = seconds * 1000 + ms;
    return true;
}

/* The half of the day behind a clock: 0 none, 'a', 'p', -1 for other text. */
static int half_of_day(const char *at)
{
    at += strspn(at, " ");
    if (*at == '\0') {
        return 0;
    }
    int half = *at == 'a' || *at == 'A' ? 'a' : *at == 'p' || *at == 'P' ? 'p' : -1;
    at++;
    at += *at == '.';
    if (half < 0 || (*at != 'm' && *at != 'M')) {
        return -1;
    }
    at++;
    at += *at == '.';
    return at_end(at) ? half : -1;
}

bool plmi_daytime_parse(const char *text, int64_t *time_ms)
{
    int parts[3] = {0, 0, 0};
    int ms = 0;
    const char *at = text + strspn(text, " \t");
    int count = colon_parts(&at, parts, &ms);
    int half = half_of_day(at);
    if (count < 2 || half < 0 || parts[0] > 23 || parts[1] > 59 || parts[2] > 59) {
        return false;
    }
    if (half != 0) {
        if (parts[0] < 1 || parts[0] > 12) {
            return false;
        }
        parts[0] = parts[0] % 12 + (half == 'p' ? 12 : 0);
    }
    *time_ms = (((int64_t)parts[0] * 60 + parts[1]) * 60 + parts[2]) * 1000 + ms;
    return true;
}

/* The numbers of a date at *at, which is moved behind them. */
static bool date_at(const char **at, int parts[3], bool *year_first)
{
    const char *start = *at;
    char sign = '\0';
    for (int i = 0; i < 3; i++) {
        parts[i] = number_at(at);
        if (parts[i] < 0) {
            return false;
        }
        *year_first = i == 0 ? *at - start == 4 : *year_first;
        if (i == 0 && *at - start == 8) { /* 20310506 */
            int whole = parts[0];
            *year_first = true;
            parts[0] = whole / 10000;
            parts[1] = whole / 100 % 100;
            parts[2] = whole % 100;
            return true;
        }
        if (i < 2) {
            if (**at == '\0' || strchr("-/.", **at) == NULL || (i == 1 && **at != sign)) {
                return false;
            }
            sign = *(*at)++;
        }
    }
    return true;
}

bool plmi_date_parts(const char *text, int parts[3], bool *year_first)
{
    const char *at = text + strspn(text, " \t");
    return date_at(&at, parts, year_first);
}

static bool date_days(const int parts[3], bool year_first, enum plmi_date_order order, int64_t *days)
{
    int year = parts[2];
    int month = parts[1];
    int day = parts[0];
    if (year_first || order == PLMI_DATE_ORDER_YMD) {
        year = parts[0];
        day = parts[2];
    } else if (order == PLMI_DATE_ORDER_MDY) {
        month = parts[0];
        day = parts[1];
    }
    if (year < 100) {
        year += year < 70 ? 2000 : 1900;
    }
    return plmi_clock_days(year, month, day, days);
}

bool plmi_date_parse(const char *text, enum plmi_date_order order, int64_t *days)
{
    int parts[3];
    bool year_first = false;
    const char *at = text + strspn(text, " \t");
    return date_at(&at, parts, &year_first) && at_end(at) && date_days(parts, year_first, order, days);
}

bool plmi_stamp_parse(const char *text, enum plmi_date_order order, struct plm_stamp *stamp)
{
    text += strspn(text, " \t");
    size_t n = strlen(text);
    while (n > 0 && (text[n - 1] == ' ' || text[n - 1] == '\t')) {
        n--;
    }
    if (plmi_clock_parse(text, n, stamp)) {
        return true;
    }
    int parts[3];
    bool year_first = false;
    int64_t days;
    int64_t time_ms;
    const char *at = text;
    if (!date_at(&at, parts, &year_first) || !date_days(parts, year_first, order, &days)) {
        return false;
    }
    at += strspn(at, " ,T");
    bool clock = !at_end(at);
    if (clock && !plmi_daytime_parse(at, &time_ms)) {
        return false;
    }
    *stamp = (struct plm_stamp){.local_ms = days * DAY_MS + (clock ? time_ms : 0), .known = true, .has_clock = clock};
    return true;
}
