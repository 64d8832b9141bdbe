/*
 * Reads the numbers of the command line, and tells how far words are apart. Must not depend on the locale.
 * SPDX-License-Identifier: MIT
 */
#include <string.h>

#include "cli/number.h"

/* With no more digits, mantissa and power of ten are exact doubles, and so the quotient is exactly rounded. */
#define DIGITS_MAX 15
#define WORD_MAX   63

bool plmi_cli_number_parse(const char *text, size_t n, double *value)
{
    size_t i = n > 0 && (text[0] == '-' || text[0] == '+') ? 1 : 0;
    double mantissa = 0, power = 1;
    int digits = 0;
    bool point = false;
    for (; i < n; i++) {
        if (text[i] == '.' && !point) {
            point = true;
            continue;
        }
        if (text[i] < '0' || text[i] > '9' || ++digits > DIGITS_MAX) {
            return false;
        }
        mantissa = mantissa * 10 + (text[i] - '0');
        if (point) {
            power *= 10;
        }
    }
    if (digits == 0) {
        return false;
    }
    *value = (text[0] == '-' ? -mantissa : mantissa) / power;
    return true;
}

bool plmi_cli_whole_parse(const char *text, long *value)
{
    long sum = 0;
    size_t n = strlen(text);
    if (n == 0 || n > 9) {
        return false;
    }
    for (size_t i = 0; i < n; i++) {
        if (text[i] < '0' || text[i] > '9') {
            return false;
        }
        sum = sum * 10 + (text[i] - '0');
    }
    *value = sum;
    return true;
}

size_t plmi_cli_distance(const char *a, const char *b)
{
    size_t row[WORD_MAX + 1];
    size_t width = strlen(b) < WORD_MAX ? strlen(b) : WORD_MAX;
    for (size_t j = 0; j <= width; j++) {
        row[j] = j;
    }
    for (size_t i = 0; a[i] != '\0'; i++) {
        size_t diagonal = row[0];
        row[0] = i + 1;
        for (size_t j = 1; j <= width; j++) {
            size_t best = diagonal + (a[i] != b[j - 1]);
            diagonal = row[j];
            if (row[j] + 1 < best) {
                best = row[j] + 1;
            }
            if (row[j - 1] + 1 < best) {
                best = row[j - 1] + 1;
            }
            row[j] = best;
        }
    }
    return row[width];
}
