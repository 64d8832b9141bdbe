/*
 * Adds a diver's exposures up by days and runs of days.
 * Must not judge whether a sum is too much.
 * SPDX-License-Identifier: MIT
 */
#include <plimsoll/ledger_days.h>

#include <limits.h>
#include <math.h>

#include <plimsoll/stamp.h>

#include "tissue/oxygen.h"

#define DAY_MS INT64_C(86400000)

int64_t plm_day_of(int64_t utc_ms, int offset_min)
{
    int64_t local_ms = plm_stamp_of(utc_ms, offset_min).local_ms;
    return local_ms / DAY_MS - (local_ms % DAY_MS < 0);
}

int64_t plm_span_down_utc_ms(const struct plm_dive_span *span)
{
    return span->start_utc_ms + span->wet_from_ms;
}

int64_t plm_span_up_utc_ms(const struct plm_dive_span *span)
{
    return span->start_utc_ms + span->wet_to_ms;
}

/* fmax, but that an unknown figure stays unknown only as long as all are. */
static void raise_to(double *highest, double value)
{
    if (isnan(*highest) || value > *highest) {
        *highest = value;
    }
}

static void day_begin(struct plm_day *day, int64_t number, const struct plm_day *before)
{
    bool run = before != NULL && before->day == number - 1;
    *day = (struct plm_day){.day = number,
                            .max_depth_m = (double)NAN,
                            .cns_pct = (double)NAN,
                            .cns_day_pct = (double)NAN,
                            .cns_beyond_min = (double)NAN,
                            .max_po2_bar = (double)NAN,
                            .surfacing_gradient_pct = (double)NAN,
                            .run_days = run ? before->run_days + 1 : 1,
                            .otu_run = run ? before->otu_run : 0};
    day->otu_allowed = plmi_otu_daily_allowed(day->run_days);
    day->otu_run_allowed = plmi_otu_total_allowed(day->run_days);
}

/* Sums of counts stay counts. */
static size_t sum_of(size_t a, size_t b)
{
    return b > SIZE_MAX - a ? SIZE_MAX : a + b;
}

static void day_add(struct plm_day *day, const struct plm_entry *entry)
{
    const struct plm_figures *figures = &entry->figures;
    day->dives++;
    day->runtime_s += (double)entry->exposure.span.duration_ms / 1000;
    raise_to(&day->max_depth_m, figures->max_depth_m);
    raise_to(&day->cns_pct, figures->cns_pct);
    raise_to(&day->cns_day_pct, figures->cns_day_before_pct + figures->cns_day_pct);
    raise_to(&day->cns_beyond_min, figures->cns_beyond_before_min + figures->cns_beyond_min);
    raise_to(&day->max_po2_bar, figures->max_po2_bar);
    raise_to(&day->surfacing_gradient_pct, figures->surfacing_gradient_pct);
    day->otu += figures->otu;
    day->otu_run += figures->otu;
    day->esot += figures->esot;
    day->serious = sum_of(day->serious, figures->serious);
    day->caution = sum_of(day->caution, figures->caution);
    day->note = sum_of(day->note, figures->note);
}

static int64_t day_of(const struct plm_entry *entry)
{
    return plm_day_of(plm_span_down_utc_ms(&entry->exposure.span), entry->exposure.span.offset_min);
}

size_t plm_days_find(struct plm_day *days, const struct plm_entry *entries, size_t count)
{
    size_t found = 0;
    for (size_t i = 0; i < count; i++) {
        int64_t number = day_of(&entries[i]);
        if (!entries[i].has_figures) {
            continue;
        }
        /* Who travels west can come to a day a second time: it stays one day. */
        if (found == 0 || number > days[found - 1].day) {
            day_begin(&days[found], number, found > 0 ? &days[found - 1] : NULL);
            found++;
        }
        day_add(&days[found - 1], &entries[i]);
    }
    return found;
}

const struct plm_day *plm_days_within(const struct plm_day *days, size_t *count, int64_t first, int64_t last)
{
    while (*count > 0 && (days[*count - 1].day < first || days[*count - 1].day > last)) {
        (*count)--;
    }
    for (; *count > 0 && (days->day < first || days->day > last); (*count)--) {
        days++;
    }
    return days;
}

const struct plm_entry *plm_entries_within(const struct plm_entry *entries, size_t *count, int64_t first, int64_t last)
{
    while (*count > 0 && (day_of(&entries[*count - 1]) < first || day_of(&entries[*count - 1]) > last)) {
        (*count)--;
    }
    for (; *count > 0 && (day_of(entries) < first || day_of(entries) > last); (*count)--) {
        entries++;
    }
    return entries;
}
