/*
 * Numbers from and to text, held against the C library in the C locale, which rounds correctly
 * (ISO C11 F.5; glibc documents exact conversion), over seeded random doubles of all kinds.
 * SPDX-License-Identifier: MIT
 */
#include <check.h>
#include <inttypes.h>
#include <locale.h>
#include <math.h>
#include <plimsoll/number.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/number.h"

/* What our reading is held against; the program itself never reads by locale. */
static double (*const reference)(const char *restrict text, char **restrict end) = strtod;

/* splitmix64: public domain generator, seed printed by the caller. */
static uint64_t next_random(uint64_t *state)
{
    uint64_t z = *state += 0x9e3779b97f4a7c15U;
    z = (z ^ z >> 30) * 0xbf58476d1ce4e5b9U;
    z = (z ^ z >> 27) * 0x94d049bb133111ebU;
    return z ^ z >> 31;
}

static double any_double(uint64_t *state)
{
    uint64_t bits = next_random(state);
    double value;
    memcpy(&value, &bits, sizeof value);
    return isfinite(value) ? value : 1.0 / (double)(bits | 1);
}

/* Values as dives have them: depths, pressures, times, with 0 to 6 decimals. */
static double dive_double(uint64_t *state)
{
    static const double units[] = {1, 10, 100, 1000, 1e4, 1e5, 1e6};
    double whole = (double)(next_random(state) % 200000000);
    return whole / units[next_random(state) % 7];
}

static bool same_bits(double a, double b)
{
    return memcmp(&a, &b, sizeof a) == 0;
}

/* ck_assert marks its place in a file each time; a million times is too often. */
#define HOLDS(condition, ...)          \
    do {                               \
        if (!(condition)) {            \
            ck_abort_msg(__VA_ARGS__); \
        }                              \
    } while (0)

static double parsed(const char *text)
{
    double value = NAN;
    HOLDS(plmi_number_parse(text, strlen(text), '.', &value), "%s", text);
    return value;
}

static void check_against_strtod(const char *text)
{
    double want = reference(text, NULL);
    double value = NAN;
    bool is_number = plmi_number_parse(text, strlen(text), '.', &value);
    if (isinf(want)) {
        HOLDS(!is_number, "%s overflows", text);
    } else {
        HOLDS(is_number && same_bits(value, want), "%s: %a, not %a", text, value, want);
    }
}

START_TEST(parse_round_trips_of_all_doubles)
{
    uint64_t state = 1;
    char text[64];
    for (int i = 0; i < 1000000; i++) {
        double value = any_double(&state);
        (void)snprintf(text, sizeof text, "%.17g", value);
        HOLDS(same_bits(parsed(text), value), "%s", text);
    }
}
END_TEST

START_TEST(parse_equals_strtod_on_random_text)
{
    uint64_t state = 2;
    char text[1000];
    for (int i = 0; i < 300000; i++) {
        int digits = 1 + (int)(next_random(&state) % (i % 100 == 0 ? 900 : 24));
        int point = (int)(next_random(&state) % (unsigned)(digits + 1));
        int at = 0;
        for (int d = 0; d < digits; d++) {
            if (d == point) {
                text[at++] = '.';
            }
            text[at++] = (char)('0' + next_random(&state) % 10);
        }
        int power = (int)(next_random(&state) % (i % 2 == 0 ? 61 : 701)) - (i % 2 == 0 ? 30 : 350);
        (void)snprintf(text + at, sizeof text - (size_t)at, "e%d", power);
        check_against_strtod(text);
    }
}
END_TEST

/* Exact halves between neighbours, and just beside them: 17 and more digits that no shortcut settles. */
START_TEST(parse_settles_ties)
{
    uint64_t state = 3;
    char text[1200];
    for (int i = 0; i < 3000; i++) {
        double value = fabs(any_double(&state));
        if (i % 2 == 0) {
            value = ldexp(1 + ldexp((double)(next_random(&state) >> 12), -52), (int)(next_random(&state) % 140) - 70);
        }
        long double half = 0.5L * ((long double)value + (long double)nextafter(value, 0));
        int n = snprintf(text, sizeof text, "%.*Le", 1080, half);
        ck_assert_int_gt(n, 0);
        check_against_strtod(text);
        char *e = strchr(text, 'e');
        e[-1] = (char)(e[-1] == '9' ? '8' : e[-1] + 1);
        check_against_strtod(text);
    }
    check_against_strtod("9007199254740993");
    check_against_strtod("9007199254740992.99999999999999999999999");
    check_against_strtod("2.2250738585072011e-308");
    check_against_strtod("2.4703282292062327e-324");
    check_against_strtod("2.4703282292062328e-324");
    check_against_strtod("4.9406564584124654e-324");
    check_against_strtod("1.7976931348623158e308");
    check_against_strtod("1.7976931348623159e308");
    check_against_strtod("18446744073709551615e0");
    check_against_strtod("99999999999999999999");
    check_against_strtod("0e999999999999999999999");
    check_against_strtod("1e-999999999999999999999");
}
END_TEST

START_TEST(parse_takes_only_decimal_numbers)
{
    static const char *const refused[] = {"",    " ",    "+",     "-",   ".",     "e5",     ".e5", "1e",
                                          "1e+", "1..2", "1.2.3", "1,5", "0x10",  "inf",    "nan", "1 2",
                                          "--1", "1-",   "1e5.5", "1d5", "1e400", "-1e309", "12a"};
    for (size_t i = 0; i < sizeof refused / sizeof refused[0]; i++) {
        double value = 7;
        HOLDS(!plmi_number_parse(refused[i], strlen(refused[i]), '.', &value), "\"%s\"", refused[i]);
        ck_assert(same_bits(value, 7));
    }
    ck_assert(same_bits(parsed(" +1.5\r\n"), 1.5));
    ck_assert(same_bits(parsed("-0"), -0.0));
    ck_assert(same_bits(parsed(".5"), 0.5));
    ck_assert(same_bits(parsed("5."), 5));
    ck_assert(same_bits(parsed("1E-2"), 0.01));
    double value = 0;
    ck_assert(plmi_number_parse("1,25", 4, ',', &value) && same_bits(value, 1.25));
    ck_assert(!plmi_number_parse("1.25", 4, ',', &value));
    ck_assert(plmi_number_parse("12345", 2, '.', &value) && same_bits(value, 12));
}
END_TEST

START_TEST(parse_reads_very_long_numbers)
{
    size_t n = 200000;
    char *text = malloc(n + 16);
    ck_assert_ptr_nonnull(text);
    memset(text, '0', n);
    text[1] = '.';
    text[n - 1] = '7';
    memcpy(text + n, "e199998", 8);
    ck_assert(same_bits(parsed(text), 7));
    free(text);
}
END_TEST

static void check_fixed(double value, int digits)
{
    char want[400];
    (void)snprintf(want, sizeof want, "%.*f", digits, value);
    if (want[0] == '-' && strspn(want + 1, "0.") == strlen(want + 1)) {
        memmove(want, want + 1, strlen(want));
    }
    struct plmi_text text;
    plmi_text_init(&text);
    plmi_number_fixed(&text, value, digits);
    HOLDS(strcmp(text.bytes, want) == 0, "%a with %d digits: %s, not %s", value, digits, text.bytes, want);
    plmi_text_free(&text);
}

START_TEST(fixed_equals_printf)
{
    uint64_t state = 4;
    for (int i = 0; i < 1000000; i++) {
        int digits = (int)(next_random(&state) % 13);
        double value = i % 4 == 0 ? any_double(&state) : dive_double(&state);
        if (i % 4 == 1) { /* ties: whole + 1/2, and dyadic fractions */
            value = floor(value) + ldexp((double)(next_random(&state) % 256), -8);
        }
        check_fixed(i % 3 == 0 ? -value : value, digits);
    }
    check_fixed(0.5, 0);
    check_fixed(1.5, 0);
    check_fixed(2.5, 0);
    check_fixed(0.05, 1);
    check_fixed(0.125, 2);
    check_fixed(9.995, 2);
    check_fixed(999999.9999995, 6);
    check_fixed(1.7976931348623157e308, 12);
    check_fixed(5e-324, 12);
    check_fixed(9007199254740992.0, 12);
    check_fixed(9007199254740991.0, 12);
    check_fixed(4503599627370495.5, 12);
}
END_TEST

START_TEST(fixed_of_what_is_no_number_is_empty)
{
    struct plmi_text text;
    plmi_text_init(&text);
    plmi_number_fixed(&text, NAN, 2);
    plmi_number_fixed(&text, INFINITY, 2);
    plmi_number_short(&text, NAN);
    plmi_number_short(&text, -INFINITY);
    ck_assert_uint_eq(text.count, 0);
    plmi_text_free(&text);
}
END_TEST

/* Digits that %.Ng needs to read back the same: the shortest cannot have more. */
static size_t digits_needed(double value)
{
    char text[64];
    for (int n = 1; n < 17; n++) {
        (void)snprintf(text, sizeof text, "%.*e", n - 1, value);
        if (same_bits(reference(text, NULL), value)) {
            return (size_t)n;
        }
    }
    return 17;
}

static size_t digits_in(const char *text)
{
    size_t count = 0;
    size_t zeros = 0;
    for (; *text != '\0' && *text != 'e'; text++) {
        if (*text == '0' && count > 0) {
            zeros++;
        } else if (*text >= '1' && *text <= '9') {
            count += zeros + 1;
            zeros = 0;
        }
    }
    return count;
}

START_TEST(short_reads_back_and_is_shortest)
{
    uint64_t state = 5;
    struct plmi_text text;
    plmi_text_init(&text);
    for (int i = 0; i < 200000; i++) {
        double value = i % 2 == 0 ? any_double(&state) : dive_double(&state);
        plmi_text_clear(&text);
        plmi_number_short(&text, value);
        HOLDS(same_bits(parsed(text.bytes), value), "%a: %s", value, text.bytes);
        HOLDS(value == 0 || digits_in(text.bytes) <= digits_needed(value), "%a: %s", value, text.bytes);
    }
    plmi_text_free(&text);
}
END_TEST

/* A unit that is a power of ten away: what is written scaled reads back scaled to the same bits. strtod of the text
 * with an exponent behind it is the reference. */
START_TEST(scaled_reads_back)
{
    static const int all_tens[] = {-5, -3, 0, 2, 5};
    uint64_t state = 11;
    struct plmi_text out;
    plmi_text_init(&out);
    for (int i = 0; i < 200000; i++) {
        double value = i % 2 == 0 ? (double)(next_random(&state) >> 11) / 4503599627370496.0
                                  : (double)(next_random(&state) % 100000) / 1000.0;
        int tens = all_tens[i % 5];
        double back = 0;
        char text[80];
        plmi_text_clear(&out);
        plmi_number_short_scaled(&out, value, tens);
        HOLDS(plmi_number_parse_scaled(out.bytes, out.count, '.', -tens, &back) && same_bits(back, value),
              "%a by 10^%d: %s", value, tens, out.bytes);
        (void)snprintf(text, sizeof text, "%se%d", out.bytes, -tens);
        HOLDS(strchr(out.bytes, 'e') != NULL || same_bits(reference(text, NULL), value), "%a by 10^%d: %s", value, tens,
              text);
    }
    plmi_text_free(&out);
}
END_TEST

START_TEST(short_looks_as_a_person_writes)
{
    static const struct {
        double value;
        const char *want;
    } rows[] = {
        {0, "0"},
        {-0.0, "-0"},
        {1, "1"},
        {-12.5, "-12.5"},
        {1019.7162, "1019.7162"},
        {0.1, "0.1"},
        {1e22, "1e22"},
        {1e21, "1e21"},
        {1e16, "10000000000000000"},
        {1e-5, "0.00001"},
        {1e-7, "1e-7"},
        {5e-324, "5e-324"},
        {1.7976931348623157e308, "1.7976931348623157e308"},
        {0.30000000000000004, "0.30000000000000004"},
        {123456.789, "123456.789"},
        {1234567890123456789.0, "1.2345678901234568e18"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct plmi_text text;
        plmi_text_init(&text);
        plmi_number_short(&text, rows[i].value);
        ck_assert_str_eq(text.bytes, rows[i].want);
        plmi_text_free(&text);
    }
}
END_TEST

START_TEST(integers)
{
    static const struct {
        const char *text;
        bool ok;
        int64_t value;
    } rows[] = {
        {"0", true, 0},
        {" 42 ", true, 42},
        {"-7", true, -7},
        {"+7", true, 7},
        {"9223372036854775807", true, INT64_MAX},
        {"-9223372036854775808", true, INT64_MIN},
        {"9223372036854775808", false, 0},
        {"-9223372036854775809", false, 0},
        {"99999999999999999999", false, 0},
        {"", false, 0},
        {"-", false, 0},
        {"1.0", false, 0},
        {"1e3", false, 0},
        {"0x1", false, 0},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        int64_t value = 0;
        ck_assert_msg(plmi_integer_parse(rows[i].text, strlen(rows[i].text), &value) == rows[i].ok, "%s", rows[i].text);
        ck_assert_msg(value == rows[i].value, "%s: %" PRId64, rows[i].text, value);
    }
}
END_TEST

/* A locale that writes a comma, built for the test by its CMake; the C library itself must then write one. */
/* What clients get: the same reading with a point, and nothing written where it is refused. */
START_TEST(public_reading)
{
    double value = 7;
    int64_t whole = 7;
    ck_assert(plm_number_parse("1013.25", 7, &value));
    ck_assert_double_eq(value, 1013.25);
    ck_assert(plm_number_parse("90s", 2, &value));
    ck_assert_double_eq(value, 90);
    ck_assert(!plm_number_parse("1,5", 3, &value) && !plm_number_parse("", 0, &value));
    ck_assert_double_eq(value, 90);
    ck_assert(plm_whole_parse("-12", &whole) && whole == -12);
    ck_assert(!plm_whole_parse("1.0", &whole) && !plm_whole_parse("", &whole));
    ck_assert(!plm_whole_parse("9223372036854775808", &whole));
    ck_assert_int_eq(whole, -12);
}
END_TEST

START_TEST(a_comma_locale_changes_nothing)
{
    if (getenv("LOCPATH") == NULL) {
        (void)printf("skipped: LOCPATH names no folder with the locale \"comma\"\n");
        return;
    }
    ck_assert_ptr_nonnull(setlocale(LC_ALL, "comma"));
    char text[16];
    (void)snprintf(text, sizeof text, "%.1f", 1.5);
    ck_assert_str_eq(text, "1,5");
    struct plmi_text out;
    plmi_text_init(&out);
    plmi_number_fixed(&out, 1.5, 1);
    plmi_number_short(&out, 2.25);
    ck_assert_str_eq(out.bytes, "1.52.25");
    ck_assert(same_bits(parsed("1.5"), 1.5));
    ck_assert(same_bits(parsed("0.12345678901234567890123"), 0.12345678901234567890123));
    plmi_text_free(&out);
    (void)setlocale(LC_ALL, "C");
}
END_TEST

int main(void)
{
    TCase *tests = tcase_create("number");
    tcase_set_timeout(tests, 240);
    tcase_add_test(tests, parse_round_trips_of_all_doubles);
    tcase_add_test(tests, parse_equals_strtod_on_random_text);
    tcase_add_test(tests, parse_settles_ties);
    tcase_add_test(tests, parse_takes_only_decimal_numbers);
    tcase_add_test(tests, parse_reads_very_long_numbers);
    tcase_add_test(tests, fixed_equals_printf);
    tcase_add_test(tests, fixed_of_what_is_no_number_is_empty);
    tcase_add_test(tests, short_reads_back_and_is_shortest);
    tcase_add_test(tests, scaled_reads_back);
    tcase_add_test(tests, short_looks_as_a_person_writes);
    tcase_add_test(tests, integers);
    tcase_add_test(tests, a_comma_locale_changes_nothing);
    tcase_add_test(tests, public_reading);
    Suite *suite = suite_create("base");
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
