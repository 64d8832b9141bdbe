/*
 * Where two records say that different things were breathed, how long, and what that does to the ceiling: the
 * first record's profile replayed with the second's setting over just that stretch.
 * SPDX-License-Identifier: MIT
 */
#include "team/differences.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "ascent/schedule.h"
#include "base/number.h"
#include "replay/ascent_from.h"

/* One property that can differ. */
struct property {
    enum plm_difference_kind kind;
    const char *noun;
    bool (*differs)(const struct plmi_breathed *a, const struct plmi_breathed *b, const struct plm_rules *rules);
    void (*say)(struct plmi_text *out, const struct plmi_breathed *breathed);
};

static bool setpoint_differs(const struct plmi_breathed *a, const struct plmi_breathed *b,
                             const struct plm_rules *rules)
{
    bool loops = a->mode == PLM_MODE_CLOSED && b->mode == PLM_MODE_CLOSED;
    if (!loops || (isnan(a->setpoint_bar) && isnan(b->setpoint_bar))) {
        return false;
    }
    return isnan(a->setpoint_bar) || isnan(b->setpoint_bar) ||
           fabs(a->setpoint_bar - b->setpoint_bar) > rules->plan_setpoint_bar;
}

static bool mix_differs(const struct plmi_breathed *a, const struct plmi_breathed *b, const struct plm_rules *rules)
{
    return a->mode == b->mode && (fabs(a->mix.o2_frac - b->mix.o2_frac) > rules->plan_o2_frac ||
                                  fabs(a->mix.he_frac - b->mix.he_frac) > rules->plan_o2_frac);
}

static bool mode_differs(const struct plmi_breathed *a, const struct plmi_breathed *b, const struct plm_rules *rules)
{
    (void)rules;
    return a->mode != b->mode;
}

static void say_setpoint(struct plmi_text *out, const struct plmi_breathed *breathed)
{
    if (isnan(breathed->setpoint_bar)) {
        plmi_text_puts(out, "none recorded");
        return;
    }
    plmi_number_fixed(out, breathed->setpoint_bar, 2);
    plmi_text_puts(out, " bar");
}

static void say_mix(struct plmi_text *out, const struct plmi_breathed *breathed)
{
    char name[32];
    plmi_text_puts(out, plm_mix_name(&breathed->mix, name, sizeof name));
}

static void say_mode(struct plmi_text *out, const struct plmi_breathed *breathed)
{
    plmi_text_puts(out, plm_mode_text(breathed->mode));
}

static const struct property SETPOINT = {PLM_DIFFERENCE_SETPOINT, "set point", setpoint_differs, say_setpoint};
static const struct property MIX = {PLM_DIFFERENCE_MIX, "mix", mix_differs, say_mix};
static const struct property MODE = {PLM_DIFFERENCE_MODE, "breathing mode", mode_differs, say_mode};

/* The next change in either timeline after a moment; the end of the common time where there is none. */
static double next_change_s(const struct plmi_comparison *c, double after_s)
{
    double next_s = c->to_s;
    const struct plmi_timeline *both[2] = {&c->breathed_a, &c->breathed_b};
    for (int k = 0; k < 2; k++) {
        for (size_t i = 0; i < both[k]->count; i++) {
            if (both[k]->stretches[i].time_s > after_s) {
                next_s = fmin(next_s, both[k]->stretches[i].time_s);
            }
        }
    }
    return next_s;
}

static bool differs_at(const struct plmi_comparison *c, const struct property *property, double time_s)
{
    return property->differs(plmi_timeline_at(&c->breathed_a, time_s), plmi_timeline_at(&c->breathed_b, time_s),
                             c->rules);
}

static const struct plm_point *point_at(const struct plm_trace *trace, double time_s)
{
    size_t count, i = 0;
    const struct plm_point *points = plm_trace_points(trace, &count);
    while (i + 1 < count && (double)points[i].time_ms < time_s * 1000.0) {
        i++;
    }
    return &points[i];
}

static double owed_min(const struct plm_trace *trace, const struct plm_dive *dive, double time_s,
                       const struct plm_rules *rules)
{
    struct plmi_ascent_from from;
    struct plmi_schedule schedule;
    memset(&from, 0, sizeof from);
    plmi_ascent_carried(&from.gas, dive);
    plmi_ascent_from_point(&from, plm_trace_assumed(trace), point_at(trace, time_s));
    plmi_schedule_find(&schedule, &from, plm_zhl16_get(rules->model), rules);
    return schedule.status == PLM_STATUS_OK ? schedule.stop_total_s / 60.0 : (double)NAN;
}

/* Ceiling of one trace less that of the other, where they are furthest apart from from_s on. */
static double furthest_m(const struct plm_trace *base, const struct plm_trace *version, double from_s)
{
    size_t base_count, version_count, k = 0;
    const struct plm_point *p = plm_trace_points(base, &base_count), *q = plm_trace_points(version, &version_count);
    double furthest = 0.0;
    for (size_t i = 0; i < base_count; i++) {
        while (k + 1 < version_count && q[k].time_ms < p[i].time_ms) {
            k++;
        }
        double apart = q[k].ceiling_m - p[i].ceiling_m;
        if ((double)p[i].time_ms >= from_s * 1000.0 && q[k].time_ms == p[i].time_ms && fabs(apart) > fabs(furthest)) {
            furthest = apart;
        }
    }
    return furthest;
}

static enum plm_status weigh(const struct plmi_comparison *c, struct plm_difference *difference)
{
    struct plm_dive *dive = NULL;
    struct plm_trace *trace = NULL;
    enum plm_status status =
        plmi_version_make(&dive, c->a->dive, &c->breathed_b, difference->from_s, difference->to_s, c->rules, c->sink);
    if (status == PLM_STATUS_OK) {
        status = plm_replay(&trace, dive, &c->replay, c->sink);
    }
    if (status == PLM_STATUS_OK) {
        difference->ceiling_m = furthest_m(c->base, trace, difference->from_s);
        difference->decompression_min = owed_min(trace, dive, difference->to_s, &c->replay_rules) -
                                        owed_min(c->base, c->a->dive, difference->to_s, &c->replay_rules);
    }
    plm_trace_free(trace);
    plm_dive_free(dive);
    return status;
}

static void say_bearing(struct plmi_text *out, const struct plm_difference *difference, const char *name_b)
{
    if (isnan(difference->ceiling_m)) {
        return;
    }
    plmi_text_printf(out, "; by %s's version the ceiling lies up to ", name_b);
    plmi_number_fixed(out, fabs(difference->ceiling_m), 1);
    plmi_text_puts(out, difference->ceiling_m < 0 ? " m shallower" : " m deeper");
    if (isnan(difference->decompression_min)) {
        return;
    }
    plmi_text_puts(out, ", and ");
    plmi_number_fixed(out, fabs(difference->decompression_min), 1);
    plmi_text_puts(out, difference->decompression_min < 0 ? " min less decompression" : " min more decompression");
    plmi_text_puts(out, " is owed when they agree again");
}

static bool say(const struct plmi_comparison *c, struct plmi_difference_list *list, const struct property *property,
                struct plm_difference *difference)
{
    struct plmi_text a, b, sentence;
    plmi_text_init(&a);
    plmi_text_init(&b);
    plmi_text_init(&sentence);
    property->say(&a, plmi_timeline_at(&c->breathed_a, difference->from_s));
    property->say(&b, plmi_timeline_at(&c->breathed_b, difference->from_s));
    plmi_text_printf(&sentence, "%s %s on %s, %s on %s ", property->noun, a.bytes != NULL ? a.bytes : "", c->name_a,
                     b.bytes != NULL ? b.bytes : "", c->name_b);
    plmi_difference_span(&sentence, difference->from_s, difference->to_s);
    say_bearing(&sentence, difference, c->name_b);
    return plmi_difference_say(list, difference, &a, &b, &sentence);
}

static bool comparable(const struct plmi_comparison *c, enum plm_difference_kind kind, double from_s)
{
    return kind != PLM_DIFFERENCE_SETPOINT || !isnan(plmi_timeline_at(&c->breathed_b, from_s)->setpoint_bar);
}

static enum plm_status add_stretch(const struct plmi_comparison *c, struct plmi_difference_list *list,
                                   const struct property *property, double from_s, double to_s)
{
    if (to_s - from_s < c->tolerance_s) {
        return PLM_STATUS_OK;
    }
    struct plm_difference *difference = plmi_difference_add(list, property->kind, from_s, to_s);
    if (difference == NULL) {
        return PLM_STATUS_MEMORY;
    }
    enum plm_status status = comparable(c, property->kind, from_s) ? weigh(c, difference) : PLM_STATUS_OK;
    if (status == PLM_STATUS_OK && !say(c, list, property, difference)) {
        status = PLM_STATUS_MEMORY;
    }
    return status;
}

/* Walks the changes of both; a stretch ends where the two agree or either says something else. */
static enum plm_status look(const struct plmi_comparison *c, struct plmi_difference_list *list,
                            const struct property *property)
{
    enum plm_status status = PLM_STATUS_OK;
    for (double t = c->from_s; t < c->to_s && status == PLM_STATUS_OK;) {
        double next_s = next_change_s(c, t);
        if (differs_at(c, property, t)) {
            status = add_stretch(c, list, property, t, next_s);
        }
        t = next_s;
    }
    return status;
}

enum plm_status plmi_differ_setpoint(const struct plmi_comparison *comparison, struct plmi_difference_list *list)
{
    return look(comparison, list, &SETPOINT);
}

enum plm_status plmi_differ_mix(const struct plmi_comparison *comparison, struct plmi_difference_list *list)
{
    return look(comparison, list, &MIX);
}

enum plm_status plmi_differ_mode(const struct plmi_comparison *comparison, struct plmi_difference_list *list)
{
    return look(comparison, list, &MODE);
}
