/*
 * Fuzzes reading of numbers: what is read equals the C library's reading in the C locale,
 * and its shortest text reads back the same. Must not accept what is no decimal number.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "base/number.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

/* What our reading is held against; the program itself never reads by locale. */
static double (*const reference)(const char *restrict text, char **restrict end) = strtod;

static void check(int holds)
{
    if (!holds) {
        abort();
    }
}

static int same_bits(double a, double b)
{
    return memcmp(&a, &b, sizeof a) == 0;
}

static void check_value(const char *text, size_t n, double value)
{
    struct plmi_text written;
    double again = NAN;
    check(isfinite(value) && same_bits(reference(text, NULL), value));
    plmi_text_init(&written);
    plmi_number_short(&written, value);
    check(plmi_number_parse(written.bytes, written.count, '.', &again) && same_bits(again, value));
    plmi_text_clear(&written);
    plmi_number_fixed(&written, value, (int)(n % 13));
    check(plmi_number_parse(written.bytes, written.count, '.', &again));
    check(fabs(again - value) <= 0.5000001 * pow(10, -(double)(n % 13)) + fabs(value) * 2.3e-16);
    plmi_text_free(&written);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    char *text = malloc(size + 1);
    if (text == NULL) {
        return 0;
    }
    if (size > 0) {
        memcpy(text, data, size);
    }
    text[size] = '\0';
    double value = NAN;
    int64_t whole = 0;
    if (plmi_number_parse(text, size, '.', &value)) {
        check_value(text, size, value);
    }
    if (plmi_integer_parse(text, size, &whole)) {
        check(plmi_number_parse(text, size, '.', &value) && same_bits((double)whole, value + 0.0));
    }
    (void)plmi_number_parse(text, size, ',', &value);
    free(text);
    return 0;
}
