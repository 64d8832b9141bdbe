/*
 * Where two aligned records show different depths, and where one is silent.
 * SPDX-License-Identifier: MIT
 */
#include "team/differences.h"

#include <math.h>

#include "base/number.h"

/* Further apart than this for longer than that is a difference. */
#define APART_M 1.0
#define APART_S 60.0

static void say_depth(struct plmi_text *out, double depth_m)
{
    plmi_number_fixed(out, depth_m, 1);
    plmi_text_puts(out, " m");
}

static bool add_depth(const struct plmi_comparison *c, struct plmi_difference_list *list, double from_s, double to_s,
                      double a_m, double b_m)
{
    struct plmi_text a, b, sentence;
    struct plm_difference *difference = plmi_difference_add(list, PLM_DIFFERENCE_DEPTH, from_s, to_s);
    if (difference == NULL) {
        return false;
    }
    plmi_text_init(&a);
    plmi_text_init(&b);
    plmi_text_init(&sentence);
    say_depth(&a, a_m);
    say_depth(&b, b_m);
    plmi_text_printf(&sentence, "after the records are laid over each other, %s shows %s and %s shows %s on average ",
                     c->name_a, a.bytes != NULL ? a.bytes : "", c->name_b, b.bytes != NULL ? b.bytes : "");
    plmi_difference_span(&sentence, from_s, to_s);
    return plmi_difference_say(list, difference, &a, &b, &sentence);
}

enum plm_status plmi_differ_depth(const struct plmi_comparison *c, struct plmi_difference_list *list)
{
    double from_s = 0.0, last_s = 0.0, sum_a = 0.0, sum_b = 0.0;
    long held = 0;
    size_t hint = 0;
    for (size_t i = 0; i <= c->series_a.count; i++) {
        bool more = i < c->series_a.count;
        double time_s = more ? c->series_a.time_s[i] : 0.0, a_m = more ? c->series_a.depth_m[i] : 0.0;
        double b_m = more ? plmi_comparison_b_depth_m(c, time_s, &hint) : (double)NAN;
        bool apart = fabs(a_m - b_m) > APART_M && time_s >= c->from_s && time_s <= c->to_s;
        if (!apart) {
            if (held > 0 && last_s - from_s > APART_S &&
                !add_depth(c, list, from_s, last_s, sum_a / (double)held, sum_b / (double)held)) {
                return PLM_STATUS_MEMORY;
            }
            held = 0;
            continue;
        }
        if (held == 0) {
            from_s = time_s;
            sum_a = sum_b = 0.0;
        }
        held++;
        last_s = time_s;
        sum_a += a_m;
        sum_b += b_m;
    }
    return PLM_STATUS_OK;
}

/* The other record knows a depth all through the stretch. */
static bool covered(const struct plmi_comparison *c, bool gap_in_a, double from_s, double to_s)
{
    size_t hint = 0;
    for (double t = from_s; t <= to_s; t += fmax(1.0, (to_s - from_s) / 64.0)) {
        double depth_m =
            gap_in_a ? plmi_comparison_b_depth_m(c, t, &hint) : plmi_series_depth_m(&c->series_a, t, &hint, NULL);
        if (isnan(depth_m)) {
            return false;
        }
    }
    return true;
}

static bool add_gap(const struct plmi_comparison *c, struct plmi_difference_list *list, bool in_a, double from_s,
                    double to_s)
{
    struct plmi_text a, b, sentence;
    struct plm_difference *difference = plmi_difference_add(list, PLM_DIFFERENCE_GAP, from_s, to_s);
    if (difference == NULL) {
        return false;
    }
    bool filled = covered(c, in_a, from_s, to_s);
    plmi_text_init(&a);
    plmi_text_init(&b);
    plmi_text_init(&sentence);
    plmi_text_puts(in_a ? &a : &b, "no samples");
    plmi_text_puts(in_a ? &b : &a, filled ? "recorded" : "no samples");
    plmi_text_printf(&sentence, "%s has no samples ", in_a ? c->name_a : c->name_b);
    plmi_difference_span(&sentence, from_s, to_s);
    if (filled) {
        plmi_text_printf(&sentence, "; %s has them", in_a ? c->name_b : c->name_a);
    } else {
        plmi_text_puts(&sentence, "; neither has all of them");
    }
    return plmi_difference_say(list, difference, &a, &b, &sentence);
}

static bool gaps(const struct plmi_comparison *c, struct plmi_difference_list *list, const struct plmi_series *series,
                 bool in_a)
{
    for (size_t i = 1; i < series->count; i++) {
        double from_s = series->time_s[i - 1], to_s = series->time_s[i];
        if (to_s - from_s <= series->gap_s) {
            continue;
        }
        if (!in_a) {
            from_s = plmi_comparison_time_s(c, from_s);
            to_s = plmi_comparison_time_s(c, to_s);
        }
        if (!add_gap(c, list, in_a, from_s, to_s)) {
            return false;
        }
    }
    return true;
}

enum plm_status plmi_differ_gap(const struct plmi_comparison *c, struct plmi_difference_list *list)
{
    bool ok = gaps(c, list, &c->series_a, true) && gaps(c, list, &c->series_b, false);
    return ok ? PLM_STATUS_OK : PLM_STATUS_MEMORY;
}
