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
        struct plm_recent_dose dose = {age_s(&past[i]) - last_s, past[i].otu, past[i].cns_day_pct, past[i].esot};
        if (age_s(&past[i]) < day_s)
            plmi_start_recent_add(start, &dose);
    }
}

/* Back from the day of the moment, day by day, as long as there was a dive on each. */
static void run_find(struct plm_start *start, const struct plm_past_dive *past, size_t count, int64_t day)
{
    int64_t first = day;
    size_t from = count;
    while (from > 0 && past[from - 1].day >= first - 1) {
        from--;
        first = past[from].day < first ? past[from].day : first;
    }
    start->otu_run_days = (int)(day - first) + 1;
    start->otu_run = 0.0;
    for (size_t i = from; i < count; i++)
        start->otu_run += past[i].otu;
}

struct plm_start plm_start_from_past(const struct plm_past_dive *past, size_t count, int64_t day, const struct plm_rules *rules)
{
    struct plm_start end = {.anchor_bar = (double)NAN, .surface_interval_s = (double)NAN};
    if (count == 0)
        return end;
    const struct plm_past_dive *last = &past[count - 1];
    end.carried = true;
    end.tissue = last->end;
    end.anchor_bar = last->anchor_bar;
    end.cns_pct = last->cns_pct;
    end.surface_interval_s = 0.0;
    recent_find(&end, past, count);
    struct plm_start start = plm_start_rest(&end, age_s(last), last->surface_bar, rules);
    run_find(&start, past, count, day);
    return start;
}
