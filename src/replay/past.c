/*
 * The state that past dives leave: the last one's tissues at rest since, the doses of all that are near enough.
 * Must not know where the dives come from.
 * SPDX-License-Identifier: MIT
 */
#include <plimsoll/past.h>

#include <math.h>

#include "replay/start.h"

static const double day_s = 86400.0;

static double age_s(const struct plm_past_dive *dive)
{
    return dive->ended_s > 0.0 ? dive->ended_s : 0.0;
}

/* The doses of a day, as old as they are when the last dive ends. */
static void recent_find(struct plm_start *start, const struct plm_past_dive *past, size_t count)
{
    double last_s = age_s(&past[count - 1]);
    for (size_t i = 0; i < count; i++) {
        struct plm_recent_dose dose = {age_s(&past[i]) - last_s, past[i].otu, past[i].cns_day_pct, past[i].esot,
                                       past[i].cns_beyond_min};
        if (age_s(&past[i]) < day_s) {
            plmi_start_recent_add(start, &dose);
        }
    }
}

/* The run of the last dive goes on where that was on the day of the moment or the day before it. Who travels west can
 * come to a day a second time. */
static void run_find(struct plm_start *start, const struct plm_past_dive *last, int64_t day)
{
    bool on = last->day >= day - 1;
    int64_t first = on ? last->day - (last->otu_run_days > 0 ? last->otu_run_days - 1 : 0) : day;
    start->otu_run_days = (int)(day - (first < day ? first : day)) + 1;
    start->otu_run = on ? last->otu_run + last->otu : 0.0;
}

struct plm_start plm_start_from_past(const struct plm_past_dive *past, size_t count, int64_t day,
                                     const struct plm_rules *rules)
{
    struct plm_start end = {.anchor_bar = (double)NAN, .surface_interval_s = (double)NAN};
    if (count == 0) {
        return end;
    }
    const struct plm_past_dive *last = &past[count - 1];
    end.residual = true;
    end.tissue = last->end;
    end.anchor_bar = last->anchor_bar;
    end.cns_pct = last->cns_pct;
    end.surface_interval_s = 0.0;
    recent_find(&end, past, count);
    struct plm_start start = plm_start_rest(&end, age_s(last), last->surface_bar, rules);
    run_find(&start, last, day);
    return start;
}
