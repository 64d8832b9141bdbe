/*
 * Numbers in messages. Must not allocate, must not ask for a locale.
 * SPDX-License-Identifier: MIT
 */
#include "base/figure.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define HUGE_FIGURE 1e12
#define DIGITS_MAX  6

struct plmi_figure plmi_figure(double value, int digits)
{
    static const long long TENS[DIGITS_MAX + 1] = {1, 10, 100, 1000, 10000, 100000, 1000000};
    struct plmi_figure figure = {"unknown"};
    digits = digits < 0 ? 0 : digits > DIGITS_MAX ? DIGITS_MAX : digits;
    if (isnan(value)) {
        return figure;
    }
    if (fabs(value) >= HUGE_FIGURE) {
        (void)snprintf(figure.text, sizeof figure.text, "%s", value < 0 ? "-huge" : "huge");
        return figure;
    }
    long long scaled = llround(value * (double)TENS[digits]);
    const char *sign = scaled < 0 ? "-" : "";
    long long size = scaled < 0 ? -scaled : scaled;
    if (digits == 0) {
        (void)snprintf(figure.text, sizeof figure.text, "%s%lld", sign, size);
    } else {
        (void)snprintf(figure.text, sizeof figure.text, "%s%lld.%0*lld", sign, size / TENS[digits], digits,
                       size % TENS[digits]);
    }
    return figure;
}

struct plmi_figure plmi_figure_short(double value, int digits)
{
    struct plmi_figure figure = plmi_figure(value, digits);
    if (strchr(figure.text, '.') != NULL) {
        size_t n = strlen(figure.text);
        while (figure.text[n - 1] == '0') {
            n--;
        }
        if (figure.text[n - 1] == '.') {
            n--;
        }
        figure.text[n] = '\0';
    }
    return figure;
}
