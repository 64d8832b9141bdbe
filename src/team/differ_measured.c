/*
 * Oxygen measured by one recorder against the set point that the other goes by.
 * SPDX-License-Identifier: MIT
 */
#include "team/differences.h"

#include <math.h>

#include "base/number.h"

/* One side: whose cells, whose set point; the sides differ in clock. */
struct side {
    const struct plm_debriefed *measuring;
    const char *measuring_name, *other_name;
    const struct plmi_timeline *other;
    bool mapped; /* the measuring record's times need mapping to a's clock */
};

struct stretch {
    double from_s, to_s, sum_bar;
    long count;
    double setpoint_bar;
};

/* Median of what the cells read; NaN where none does. */
static double measured_bar(const struct plm_sample *sample)
{
    double cells[PLM_CELLS];
    int count = 0;
    for (int i = 0; i < PLM_CELLS; i++) {
        if (isnan(sample->cell_bar[i])) {
            continue;
        }
        int place = count++;
        for (; place > 0 && cells[place - 1] > sample->cell_bar[i]; place--) {
            cells[place] = cells[place - 1];
        }
        cells[place] = sample->cell_bar[i];
    }
    if (count == 0) {
        return sample->po2_bar;
    }
    return count % 2 ? cells[count / 2] : 0.5 * (cells[count / 2 - 1] + cells[count / 2]);
}

static bool add(const struct plmi_comparison *c, struct plmi_difference_list *list, const struct side *side,
                const struct stretch *stretch)
{
    struct plmi_text measured, setpoint, sentence;
    struct plm_difference *difference =
        plmi_difference_add(list, PLM_DIFFERENCE_MEASURED, stretch->from_s, stretch->to_s);
    if (difference == NULL) {
        return false;
    }
    plmi_text_init(&measured);
    plmi_text_init(&setpoint);
    plmi_text_init(&sentence);
    plmi_text_puts(&measured, "measured ");
    plmi_number_fixed(&measured, stretch->sum_bar / (double)stretch->count, 2);
    plmi_text_puts(&measured, " bar");
    plmi_text_puts(&setpoint, "set point ");
    plmi_number_fixed(&setpoint, stretch->setpoint_bar, 2);
    plmi_text_puts(&setpoint, " bar");
    plmi_text_printf(&sentence, "%s %s on average while %s went by a %s ", side->measuring_name,
                     measured.bytes != NULL ? measured.bytes : "", side->other_name,
                     setpoint.bytes != NULL ? setpoint.bytes : "");
    plmi_difference_span(&sentence, stretch->from_s, stretch->to_s);
    (void)c;
    return side->mapped ? plmi_difference_say(list, difference, &setpoint, &measured, &sentence)
                        : plmi_difference_say(list, difference, &measured, &setpoint, &sentence);
}

/* How far the measured oxygen is from the set point that the other record has in force; NaN where nothing can be said.
 */
static double off_bar(const struct side *side, size_t i, double time_s, double *setpoint_bar, double *seen_bar)
{
    size_t count;
    const struct plm_sample *samples = plm_dive_samples(side->measuring->dive, &count);
    const struct plm_point *points = plm_trace_points(side->measuring->trace, &count);
    const struct plmi_breathed *other = plmi_timeline_at(side->other, time_s);
    if (points[i].mode != PLM_MODE_CLOSED || other->mode != PLM_MODE_CLOSED || isnan(other->setpoint_bar)) {
        return (double)NAN;
    }
    *seen_bar = measured_bar(&samples[i]);
    *setpoint_bar = other->setpoint_bar;
    return fabs(*seen_bar - fmin(other->setpoint_bar, points[i].ambient_bar));
}

static bool look(const struct plmi_comparison *c, struct plmi_difference_list *list, const struct side *side)
{
    size_t count;
    const struct plm_point *points = plm_trace_points(side->measuring->trace, &count);
    struct stretch stretch = {0};
    bool ok = true;
    for (size_t i = 0; i <= count && ok; i++) {
        double seen_bar = 0.0, setpoint_bar = 0.0, time_s = 0.0, off = (double)NAN;
        if (i < count) {
            time_s = (double)points[i].time_ms / 1000.0;
            time_s = side->mapped ? plmi_comparison_time_s(c, time_s) : time_s;
            off = off_bar(side, i, time_s, &setpoint_bar, &seen_bar);
        }
        bool apart = off > c->rules->setpoint_off_bar && time_s >= c->from_s && time_s <= c->to_s;
        bool goes_on = apart && stretch.count > 0 && !(fabs(setpoint_bar - stretch.setpoint_bar) > 0);
        if (!goes_on && stretch.count > 0) {
            if (stretch.to_s - stretch.from_s > c->rules->setpoint_off_s) {
                ok = add(c, list, side, &stretch);
            }
            stretch = (struct stretch){0};
        }
        if (apart && stretch.count == 0) {
            stretch = (struct stretch){.from_s = time_s, .setpoint_bar = setpoint_bar};
        }
        if (apart) {
            stretch.to_s = time_s;
            stretch.sum_bar += seen_bar;
            stretch.count++;
        }
    }
    return ok;
}

enum plm_status plmi_differ_measured(const struct plmi_comparison *c, struct plmi_difference_list *list)
{
    const struct side by_a = {c->a, c->name_a, c->name_b, &c->breathed_b, false};
    const struct side by_b = {c->b, c->name_b, c->name_a, &c->breathed_a, true};
    return look(c, list, &by_a) && look(c, list, &by_b) ? PLM_STATUS_OK : PLM_STATUS_MEMORY;
}
