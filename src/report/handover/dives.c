/*
 * The dives of a handover in time: which began last, which it follows, which are records of one dive. Must not lay out
 * anything.
 * SPDX-License-Identifier: MIT
 */
#include "report/handover/handover.h"

#include <math.h>

static bool timed(const struct plmi_handover_dive *dive)
{
    return dive->start.known && dive->start.has_clock;
}

/* From the beginning of a to the beginning of b [s], both timed. */
static double between_s(const struct plmi_handover_dive *a, const struct plmi_handover_dive *b)
{
    double apart_s = (double)(b->start.local_ms - a->start.local_ms) / 1e3;
    if (a->start.has_zone && b->start.has_zone) {
        apart_s -= 60.0 * (b->start.offset_min - a->start.offset_min);
    }
    return apart_s;
}

/* Whether b is later than a; of two that tell no time the one that is given later. */
static bool later(const struct plmi_handover_dive *a, const struct plmi_handover_dive *b)
{
    if (timed(a) != timed(b)) {
        return timed(b);
    }
    return !timed(b) || between_s(a, b) >= 0;
}

/* Whether two records overlap so much that they are of one dive. */
static bool same_dive(const struct plmi_handover_dive *a, const struct plmi_handover_dive *b)
{
    if (!timed(a) || !timed(b)) {
        return false;
    }
    double apart_s = between_s(a, b);
    double together_s = fmin(a->surfaced_s, apart_s + b->surfaced_s) - fmax(0, apart_s);
    return together_s > 0.5 * fmin(a->surfaced_s, b->surfaced_s);
}

size_t plmi_handover_same_dive(const struct plmi_handover *handover)
{
    size_t found = 0;
    for (size_t i = 0; i < handover->count; i++) {
        found += i != handover->last && same_dive(&handover->dives[i], &handover->dives[handover->last]);
    }
    return found;
}

size_t plmi_handover_untimed(const struct plmi_handover *handover)
{
    size_t found = 0;
    for (size_t i = 0; i < handover->count; i++) {
        found += i != handover->last && !timed(&handover->dives[i]);
    }
    return found;
}

/* A dive is shown once, by the first record of it that was given. */
static bool shown_before(const struct plmi_handover *handover, size_t dive)
{
    for (size_t i = 0; i < dive; i++) {
        if (i != handover->last && same_dive(&handover->dives[i], &handover->dives[dive])) {
            return true;
        }
    }
    return false;
}

/* Puts a row where it belongs; one that there is no room for pushes the earliest out. */
static void row_add(struct plmi_handover_row *rows, size_t *count, size_t *more, struct plmi_handover_row row)
{
    size_t at = *count;
    while (at > 0 && rows[at - 1].hours_before > row.hours_before) {
        at--;
    }
    bool full = *count == PLMI_HANDOVER_DIVES_MAX;
    *more += full ? 1 : 0;
    *count += full ? 0 : 1;
    for (size_t i = *count; i > at + 1; i--) {
        rows[i - 1] = rows[i - 2];
    }
    if (at < *count) {
        rows[at] = row;
    }
}

size_t plmi_handover_earlier(const struct plmi_handover *handover,
                             struct plmi_handover_row rows[PLMI_HANDOVER_DIVES_MAX], size_t *more)
{
    const struct plmi_handover_dive *last = &handover->dives[handover->last];
    size_t count = 0;
    *more = 0;
    for (size_t i = 0; i < handover->count; i++) {
        const struct plmi_handover_dive *one = &handover->dives[i];
        if (i == handover->last || !timed(one) || !timed(last) || same_dive(one, last) || shown_before(handover, i)) {
            continue;
        }
        double hours = (between_s(one, last) - one->surfaced_s) / 3600;
        if (hours <= PLMI_HANDOVER_HOURS) {
            row_add(rows, &count, more, (struct plmi_handover_row){one, hours});
        }
    }
    return count;
}

bool plmi_handover_takes_over(const struct plmi_handover_dive *a, const struct plmi_handover_dive *b)
{
    const struct plm_completeness worths[] = {a->worth, b->worth};
    return same_dive(a, b) ? plm_completeness_best(worths, 2) == 1 : later(a, b);
}
