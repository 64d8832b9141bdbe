/*
 * Doubles to decimal text without a locale: fixed digits, rounded from the exact value
 * (ties to even), and the shortest text that reads back the same.
 * Must not use printf: it reads the locale.
 * SPDX-License-Identifier: MIT
 */
#include <assert.h>
#include <float.h>
#include <math.h>
#include <string.h>

#include "base/big.h"
#include "base/number.h"

__extension__ typedef unsigned __int128 wide_uint;

enum { FIXED_DIGITS_MAX = 12, BUFFER_BYTES = 352, SHORT_WHOLE_BITS = 50, SHORT_DECIMALS = 12 };

static const uint64_t powers[FIXED_DIGITS_MAX + 1] = {
    1U,        10U,        100U,        1000U,        10000U,        100000U,        1000000U,
    10000000U, 100000000U, 1000000000U, 10000000000U, 100000000000U, 1000000000000U,
};

static const char digit_pairs[] =
    "0001020304050607080910111213141516171819202122232425262728293031323334353637383940414243444546474849"
    "5051525354555657585960616263646566676869707172737475767778798081828384858687888990919293949596979899";

/* A double taken apart: mantissa 2^exponent. */
struct binary {
    bool negative;
    uint64_t mantissa;
    int exponent;
};

static struct binary take_apart(double value)
{
    uint64_t bits;
    memcpy(&bits, &value, sizeof bits);
    struct binary binary;
    binary.negative = bits >> 63 != 0;
    int biased = (int)(bits >> 52 & 0x7ff);
    uint64_t fraction = bits & (((uint64_t)1 << 52) - 1);
    binary.mantissa = biased == 0 ? fraction : fraction | (uint64_t)1 << 52;
    binary.exponent = (biased == 0 ? 1 : biased) - 1075;
    return binary;
}

/* Digits of a whole number, written to end at `end`. Returns: where they begin. */
static char *write_whole(char *end, uint64_t whole)
{
    while (whole >= 100) {
        end -= 2;
        memcpy(end, digit_pairs + whole % 100 * 2, 2);
        whole /= 100;
    }
    if (whole >= 10) {
        end -= 2;
        memcpy(end, digit_pairs + whole * 2, 2);
        return end;
    }
    *--end = (char)('0' + whole);
    return end;
}

/* Exactly `width` digits, with leading zeros. */
static char *write_padded(char *end, uint64_t whole, int width)
{
    char *begin = end - width;
    char *at = write_whole(end, whole);
    while (at > begin) {
        *--at = '0';
    }
    return begin;
}

/* mantissa 2^exponent 10^digits rounded to a whole number, exponent < 0: less than 2^93. */
static wide_uint scale_rounded(const struct binary *binary, int digits)
{
    int drop = -binary->exponent;
    if (drop > 96) {
        return 0; /* below 2^93 / 2^97 */
    }
    wide_uint product = (wide_uint)binary->mantissa * powers[digits];
    wide_uint whole = product >> drop;
    wide_uint rest = product - (whole << drop);
    wide_uint half = (wide_uint)1 << (drop - 1);
    bool up = rest > half || (rest == half && (whole & 1) != 0);
    return whole + (up ? 1 : 0);
}

/* A double of 2^53 and more is a whole number. */
static char *write_large(char *end, const struct binary *binary)
{
    struct plmi_big big;
    plmi_big_set(&big, binary->mantissa);
    plmi_big_shift(&big, (size_t)binary->exponent);
    char *at = end;
    while (big.count > 2) {
        uint32_t part = plmi_big_divide(&big, 1000000000U);
        at = write_padded(at, part, 9);
    }
    uint64_t top = big.count == 0 ? 0 : big.limb[0];
    top |= big.count == 2 ? (uint64_t)big.limb[1] << 32 : 0;
    return write_whole(at, top);
}

/* ".ddd", nothing for no digits. */
static char *put_decimals(char *end, uint64_t decimals, int digits)
{
    if (digits == 0) {
        return end;
    }
    char *at = write_padded(end, decimals, digits);
    *--at = '.';
    return at;
}

void plmi_number_fixed(struct plmi_text *out, double value, int digits)
{
    assert(digits >= 0 && digits <= FIXED_DIGITS_MAX);
    if (!isfinite(value)) {
        return;
    }
    struct binary binary = take_apart(value);
    char buffer[BUFFER_BYTES];
    char *const end = buffer + sizeof buffer;
    char *at = end;
    bool zero = false;
    if (binary.exponent >= 0) {
        at = write_large(put_decimals(at, 0, digits), &binary);
    } else {
        wide_uint scaled = scale_rounded(&binary, digits);
        zero = scaled == 0;
        bool narrow = scaled >> 64 == 0;
        uint64_t unit = powers[digits];
        uint64_t whole = narrow ? (uint64_t)scaled / unit : (uint64_t)(scaled / unit);
        at = put_decimals(at, (uint64_t)(scaled - (wide_uint)whole * unit), digits);
        at = write_whole(at, whole);
    }
    if (binary.negative && !zero) {
        *--at = '-';
    }
    plmi_text_add(out, at, (size_t)(end - at));
}

/* The usual case: a number of few decimals. False where it is none. */
static bool write_few_decimals(struct plmi_text *out, double value)
{
    double magnitude = fabs(value);
    if (magnitude < 1e-5) {
        return false;
    }
    for (int decimals = 0; decimals <= SHORT_DECIMALS; decimals++) {
        double unit = (double)powers[decimals];
        double whole = rint(magnitude * unit);
        if (whole >= (double)((uint64_t)1 << SHORT_WHOLE_BITS)) {
            return false;
        }
        if (whole / unit == magnitude) {
            /* Exact: the text is that fraction, and its quotient is the double nearest to it. */
            plmi_number_fixed(out, value, decimals);
            return true;
        }
    }
    return false;
}

/* value = r / s; m_plus, m_minus / s: half the distance to its neighbours. */
struct shortest {
    struct plmi_big r, s, m_plus, m_minus;
    bool even;
};

static void start_shortest(struct shortest *work, const struct binary *binary)
{
    bool edge = binary->mantissa == (uint64_t)1 << 52 && binary->exponent > -1074;
    unsigned extra = edge ? 2 : 1;
    plmi_big_set(&work->r, binary->mantissa);
    plmi_big_set(&work->s, 1);
    plmi_big_set(&work->m_plus, edge ? 2 : 1);
    plmi_big_set(&work->m_minus, 1);
    work->even = (binary->mantissa & 1) == 0;
    plmi_big_shift(&work->r, extra);
    plmi_big_shift(&work->s, extra);
    if (binary->exponent >= 0) {
        plmi_big_shift(&work->r, (size_t)binary->exponent);
        plmi_big_shift(&work->m_plus, (size_t)binary->exponent);
        plmi_big_shift(&work->m_minus, (size_t)binary->exponent);
    } else {
        plmi_big_shift(&work->s, (size_t)-binary->exponent);
    }
}

/* Whether the upper end of what reads back reaches s. */
static bool reaches(const struct shortest *work, const struct plmi_big *bound)
{
    struct plmi_big high = work->r;
    plmi_big_add(&high, &work->m_plus);
    int order = plmi_big_compare(&high, bound);
    return order > 0 || (order == 0 && work->even);
}

/* Scales so that the first digit stands before the point of 0.ddd 10^k. Returns: k. */
static int scale_shortest(struct shortest *work, double magnitude)
{
    int k = (int)ceil(log10(magnitude) - 1e-10);
    if (k >= 0) {
        plmi_big_power10(&work->s, (unsigned)k);
    } else {
        plmi_big_power10(&work->r, (unsigned)-k);
        plmi_big_power10(&work->m_plus, (unsigned)-k);
        plmi_big_power10(&work->m_minus, (unsigned)-k);
    }
    if (reaches(work, &work->s)) {
        plmi_big_scale(&work->s, 10, 0);
        k++;
    }
    return k;
}

/* Digits by the algorithm of Steele and White with free format; Burger and Dybvig 1996, figure 2. */
static int generate_shortest(struct shortest *work, char digits[20])
{
    int count = 0;
    for (;;) {
        plmi_big_scale(&work->r, 10, 0);
        plmi_big_scale(&work->m_plus, 10, 0);
        plmi_big_scale(&work->m_minus, 10, 0);
        int digit = 0;
        while (plmi_big_compare(&work->r, &work->s) >= 0) {
            plmi_big_subtract(&work->r, &work->s);
            digit++;
        }
        int order = plmi_big_compare(&work->r, &work->m_minus);
        bool low = order < 0 || (order == 0 && work->even);
        bool high = reaches(work, &work->s);
        if (!low && !high) {
            digits[count++] = (char)('0' + digit);
            continue;
        }
        plmi_big_scale(&work->r, 2, 0);
        bool up = high && (!low || plmi_big_compare(&work->r, &work->s) >= 0);
        digits[count++] = (char)('0' + digit + (up ? 1 : 0));
        return count;
    }
}

/* 0.digits 10^point as plain text or with an exponent, whichever a person would write. */
static void write_digits(struct plmi_text *out, const char *digits, int count, int point)
{
    static const char zeros[] = "00000000000000000000";
    if (point > 17 || point < -4) {
        plmi_text_add(out, digits, 1);
        if (count > 1) {
            plmi_text_puts(out, ".");
            plmi_text_add(out, digits + 1, (size_t)count - 1);
        }
        plmi_text_printf(out, "e%d", point - 1);
        return;
    }
    if (point <= 0) {
        plmi_text_puts(out, "0.");
        plmi_text_add(out, zeros, (size_t)-point);
        plmi_text_add(out, digits, (size_t)count);
        return;
    }
    int whole = count < point ? count : point;
    plmi_text_add(out, digits, (size_t)whole);
    plmi_text_add(out, zeros, (size_t)(point - whole));
    if (count > point) {
        plmi_text_puts(out, ".");
        plmi_text_add(out, digits + point, (size_t)(count - point));
    }
}

/* Shortest digits of a value that is not 0, with its point moved by tens. */
static void write_shortest(struct plmi_text *out, double value, int tens)
{
    struct binary binary = take_apart(value);
    struct shortest work;
    start_shortest(&work, &binary);
    int point = scale_shortest(&work, fabs(value));
    char digits[20];
    int count = generate_shortest(&work, digits);
    if (binary.negative) {
        plmi_text_puts(out, "-");
    }
    write_digits(out, digits, count, point + tens);
}

void plmi_number_short(struct plmi_text *out, double value)
{
    if (!isfinite(value)) {
        return;
    }
    if (value == 0) {
        plmi_text_puts(out, signbit(value) ? "-0" : "0");
    } else if (!write_few_decimals(out, value)) {
        write_shortest(out, value, 0);
    }
}

void plmi_number_short_scaled(struct plmi_text *out, double value, int tens)
{
    if (!isfinite(value) || value == 0) {
        plmi_number_short(out, value);
    } else {
        write_shortest(out, value, tens);
    }
}
