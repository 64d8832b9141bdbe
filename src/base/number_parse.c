/*
 * Decimal text to double, correctly rounded (to nearest, ties to even) for every
 * input, without a locale. Three ways, each exact: both parts of the fraction are
 * doubles; 128 bits hold all of it; whole numbers of many bits.
 * Must not use strtod: it reads the locale.
 * SPDX-License-Identifier: MIT
 */
#include <float.h>
#include <math.h>
#include <plimsoll/number.h>
#include <string.h>

#include "base/big.h"
#include "base/number.h"

__extension__ typedef unsigned __int128 wide_uint;

/* 767 digits settle every tie between two doubles; beyond that only "something follows" matters. */
enum { DIGITS_MAX = 770, EXACT_DIGITS = 19, EXPONENT_CAP = 100000000 };

/* A number taken apart: 0.d1 d2 ... times 10^exponent; digits [count] without leading zeros. */
struct decimal {
    bool negative;
    uint64_t leading; /* the first EXACT_DIGITS digits as one number */
    int count;        /* significant digits kept, cut at DIGITS_MAX  */
    bool more;        /* a digit other than 0 was cut                */
    long point;       /* value = 0.digits 10^point                   */
    unsigned char digits[DIGITS_MAX];
};

static bool is_blank(char c)
{
    return c == ' ' || c == '\t' || c == '\r' || c == '\n';
}

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

static void add_digit(struct decimal *decimal, char c, bool behind_point)
{
    int digit = c - '0';
    if (decimal->count == 0 && digit == 0) {
        decimal->point -= behind_point ? 1 : 0;
        return;
    }
    decimal->point += behind_point ? 0 : 1;
    if (decimal->count == DIGITS_MAX) {
        decimal->more = decimal->more || digit != 0;
        return;
    }
    if (decimal->count < EXACT_DIGITS) {
        decimal->leading = decimal->leading * 10 + (uint64_t)digit;
    }
    decimal->digits[decimal->count++] = (unsigned char)digit;
}

/* "e-12"; leaves *at behind it. */
static bool read_exponent(const char **at, const char *end, long *exponent)
{
    const char *c = *at + 1;
    bool negative = c < end && *c == '-';
    if (c < end && (*c == '-' || *c == '+')) {
        c++;
    }
    if (c == end || !is_digit(*c)) {
        return false;
    }
    long value = 0;
    for (; c < end && is_digit(*c); c++) {
        value = value < EXPONENT_CAP ? value * 10 + (*c - '0') : value;
    }
    *exponent = negative ? -value : value;
    *at = c;
    return true;
}

/* The grammar. Fills everything but digits that are not kept. */
static bool read_decimal(const char *at, const char *end, char point, struct decimal *decimal)
{
    decimal->negative = at < end && *at == '-';
    if (at < end && (*at == '-' || *at == '+')) {
        at++;
    }
    bool any = false;
    bool behind_point = false;
    for (; at < end; at++) {
        if (is_digit(*at)) {
            add_digit(decimal, *at, behind_point);
            any = true;
        } else if (*at == point && !behind_point) {
            behind_point = true;
        } else {
            break;
        }
    }
    long exponent = 0;
    if (!any || (at < end && (*at == 'e' || *at == 'E') && !read_exponent(&at, end, &exponent))) {
        return false;
    }
    decimal->point += exponent;
    return at == end;
}

/* The double nearest to (mantissa + something in (0,1) if sticky) 2^exponent; infinite on overflow.
 * mantissa has at least 64 bits' worth of weight: its top bit decides the rounding. */
static double round_binary(uint64_t mantissa, bool sticky, int exponent)
{
    int shift = 0;
    while (mantissa >> 63 == 0) {
        mantissa <<= 1;
        shift++;
    }
    exponent -= shift;
    /* Bits to drop: 11, more where the result is subnormal. */
    int drop = 64 - DBL_MANT_DIG;
    int lowest = DBL_MIN_EXP - DBL_MANT_DIG;
    if (exponent + drop < lowest) {
        drop = lowest - exponent;
    }
    if (drop > 64) {
        return 0;
    }
    uint64_t kept = drop == 64 ? 0 : mantissa >> drop;
    uint64_t half = (uint64_t)1 << (drop - 1);
    uint64_t rest = drop == 64 ? mantissa : mantissa & (((uint64_t)1 << drop) - 1);
    if (rest > half || (rest == half && (sticky || (kept & 1) != 0))) {
        kept++;
    }
    return ldexp((double)kept, exponent + drop);
}

static const double exact_powers[] = {1e0,  1e1,  1e2,  1e3,  1e4,  1e5,  1e6,  1e7,  1e8,  1e9,  1e10, 1e11,
                                      1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22};

static const uint64_t whole_powers[] = {
    1U,
    10U,
    100U,
    1000U,
    10000U,
    100000U,
    1000000U,
    10000000U,
    100000000U,
    1000000000U,
    10000000000U,
    100000000000U,
    1000000000000U,
    10000000000000U,
    100000000000000U,
    1000000000000000U,
    10000000000000000U,
    100000000000000000U,
    1000000000000000000U,
    10000000000000000000U,
};

static int bit_length(uint64_t value)
{
    int bits = 0;
    for (int step = 32; step > 0; step /= 2) {
        if (value >> step != 0) {
            value >>= step;
            bits += step;
        }
    }
    return bits + (value != 0 ? 1 : 0);
}

/* whole 10^power, |power| <= 19, in 128 bits. */
static double scale_wide(uint64_t whole, long power)
{
    if (power >= 0) {
        wide_uint product = (wide_uint)whole * whole_powers[power];
        uint64_t high = (uint64_t)(product >> 64);
        if (high == 0) {
            return round_binary((uint64_t)product, false, 0);
        }
        int up = 64 - bit_length(high);
        wide_uint top = product << up;
        return round_binary((uint64_t)(top >> 64), (uint64_t)top != 0, 64 - up);
    }
    uint64_t divisor = whole_powers[-power];
    /* Numerator of exactly 128 bits: the quotient then has at least 64. */
    int up = 128 - bit_length(whole);
    wide_uint numerator = (wide_uint)whole << up;
    wide_uint quotient = numerator / divisor;
    bool sticky = quotient * divisor != numerator;
    int excess = bit_length((uint64_t)(quotient >> 64));
    sticky = sticky || (quotient & (((wide_uint)1 << excess) - 1)) != 0;
    return round_binary((uint64_t)(quotient >> excess), sticky, excess - up);
}

/* Any number of digits: a quotient of 65 bits by shifting and subtracting. */
static double scale_big(const struct decimal *decimal)
{
    struct plmi_big numerator;
    struct plmi_big divisor;
    plmi_big_set(&numerator, 0);
    for (int i = 0; i < decimal->count; i++) {
        plmi_big_scale(&numerator, 10, decimal->digits[i]);
    }
    long power = decimal->point - decimal->count;
    if (decimal->more) {
        plmi_big_scale(&numerator, 10, 1);
        power--;
    }
    plmi_big_set(&divisor, 1);
    plmi_big_power10(power >= 0 ? &numerator : &divisor, (unsigned)(power >= 0 ? power : -power));
    long up = (long)plmi_big_bits(&divisor) - (long)plmi_big_bits(&numerator);
    plmi_big_shift(up >= 0 ? &numerator : &divisor, (size_t)(up >= 0 ? up : -up));
    /* numerator / divisor is in (1/2, 2). */
    if (plmi_big_compare(&numerator, &divisor) < 0) {
        plmi_big_shift(&numerator, 1);
        up++;
    }
    uint64_t quotient = 0;
    for (int bit = 0; bit < 64; bit++) {
        quotient <<= 1;
        if (plmi_big_compare(&numerator, &divisor) >= 0) {
            plmi_big_subtract(&numerator, &divisor);
            quotient |= 1;
        }
        plmi_big_scale(&numerator, 2, 0);
    }
    return round_binary(quotient, numerator.count != 0, (int)(-63 - up));
}

static double scale_decimal(const struct decimal *decimal)
{
    if (decimal->count == 0 || decimal->point < -330) {
        return 0;
    }
    if (decimal->point > 310) {
        return HUGE_VAL;
    }
    if (decimal->count <= EXACT_DIGITS) {
        long power = decimal->point - decimal->count;
        bool exact = decimal->leading <= (uint64_t)1 << DBL_MANT_DIG;
        if (exact && power >= -22 && power <= 22) {
            double whole = (double)decimal->leading;
            return power < 0 ? whole / exact_powers[-power] : whole * exact_powers[power];
        }
        if (power >= -19 && power <= 19) {
            return scale_wide(decimal->leading, power);
        }
    }
    return scale_big(decimal);
}

static void cut_blanks(const char **at, const char **end)
{
    while (*at < *end && is_blank(**at)) {
        (*at)++;
    }
    while (*at < *end && is_blank((*end)[-1])) {
        (*end)--;
    }
}

/* What most files hold, up to 15 digits without exponent: both parts of the fraction are doubles. False: the long way
 * tells. */
static bool parse_short(const char *at, const char *end, char point, double *value)
{
    enum { SHORT_BYTES = 15 };
    bool negative = at < end && *at == '-';
    at += negative ? 1 : 0;
    if (end - at > SHORT_BYTES) {
        return false;
    }
    uint64_t whole = 0;
    int digits = 0, behind = 0, pointed = 0;
    for (; at < end; at++) {
        if (is_digit(*at)) {
            whole = whole * 10 + (uint64_t)(*at - '0');
            digits++;
            behind += pointed;
        } else if (*at == point && pointed == 0) {
            pointed = 1;
        } else {
            return false;
        }
    }
    double magnitude = (double)whole / exact_powers[behind];
    *value = negative ? -magnitude : magnitude;
    return digits > 0;
}

bool plmi_number_parse_scaled(const char *text, size_t n, char point, int tens, double *value)
{
    const char *end = text + n;
    cut_blanks(&text, &end);
    double short_value;
    if (tens == 0 && parse_short(text, end, point, &short_value)) {
        *value = short_value;
        return true;
    }
    struct decimal decimal;
    decimal.leading = 0;
    decimal.count = 0;
    decimal.more = false;
    decimal.point = 0;
    if (!read_decimal(text, end, point, &decimal)) {
        return false;
    }
    decimal.point += tens;
    double magnitude = scale_decimal(&decimal);
    if (isinf(magnitude)) {
        return false;
    }
    *value = decimal.negative ? -magnitude : magnitude;
    return true;
}

bool plmi_number_parse(const char *text, size_t n, char point, double *value)
{
    return plmi_number_parse_scaled(text, n, point, 0, value);
}

bool plmi_integer_parse(const char *text, size_t n, int64_t *value)
{
    const char *end = text + n;
    cut_blanks(&text, &end);
    bool negative = text < end && *text == '-';
    if (text < end && (*text == '-' || *text == '+')) {
        text++;
    }
    if (text == end) {
        return false;
    }
    uint64_t bound = (uint64_t)INT64_MAX + (negative ? 1 : 0);
    uint64_t magnitude = 0;
    for (; text < end; text++) {
        uint64_t digit = (uint64_t)(*text - '0');
        if (!is_digit(*text) || magnitude > (bound - digit) / 10) {
            return false;
        }
        magnitude = magnitude * 10 + digit;
    }
    *value = !negative ? (int64_t)magnitude : magnitude == bound ? INT64_MIN : -(int64_t)magnitude;
    return true;
}

bool plm_number_parse(const char *text, size_t n, double *value)
{
    return plmi_number_parse(text, n, '.', value);
}

bool plm_whole_parse(const char *text, int64_t *value)
{
    return plmi_integer_parse(text, strlen(text), value);
}
