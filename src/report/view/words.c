/*
 * The sentences about one finding: when, how much, whether it holds, what it cost. Must not choose findings.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "base/number.h"
#include "report/view/build.h"

static const char *when_words(struct plmi_view *view, const struct plm_finding *finding)
{
    struct plmi_text text;
    plmi_text_init(&text);
    plmi_view_duration_write(&text, finding->from_s);
    if (round(finding->to_s) > round(finding->from_s)) {
        plmi_text_puts(&text, " to ");
        plmi_view_duration_write(&text, finding->to_s);
    }
    if (!isnan(finding->from_depth_m)) {
        plmi_text_puts(&text, ", ");
        plmi_number_fixed(&text, finding->from_depth_m, 1);
        if (!isnan(finding->to_depth_m) && fabs(finding->to_depth_m - finding->from_depth_m) >= 0.05) {
            plmi_text_puts(&text, " to ");
            plmi_number_fixed(&text, finding->to_depth_m, 1);
        }
        plmi_text_puts(&text, " m");
    }
    return plmi_view_keep_text(view, &text);
}

static const char *measure_words(struct plmi_view *view, const struct plmi_view_finding *one)
{
    const struct plm_finding *finding = one->finding;
    struct plmi_text text;
    plmi_text_init(&text);
    if (!isnan(finding->value)) {
        plmi_text_puts(&text, finding->at_least ? "at least " : "");
        plmi_view_number_write(&text, finding->value, one->digits, finding->unit);
    }
    if (!isnan(finding->value) && !isnan(one->limit)) {
        plmi_text_puts(&text, ", limit ");
        plmi_view_number_write(&text, one->limit, one->digits, finding->unit);
    }
    return plmi_view_keep_text(view, &text);
}

/* Whether two figures read the same. */
static bool reads_same(double a, double b, int digits)
{
    double step = pow(10, -digits);
    return round(a / step) == round(b / step);
}

/* What the hold stands on: the tolerance of depths, or the standard error of a rate. */
static const char *hold_reason(const struct plm_finding *finding)
{
    bool firm = finding->hold == PLM_HOLD_FIRM;
    if (!isnan(finding->value_error)) {
        return firm ? "Firm: beyond the limit by two standard errors of the depth noise or more"
                    : "Marginal: within two standard errors of the depth noise of the limit";
    }
    if (finding->cells_differ) {
        return "Marginal over the recorder's tolerance and oxygen cells";
    }
    return firm ? "Firm across the recorder's tolerance" : "Marginal: not everywhere in the recorder's tolerance";
}

static const char *hold_words(struct plmi_view *view, const struct plmi_view_finding *one)
{
    const struct plm_finding *finding = one->finding;
    struct plmi_text text;
    if (finding->hold == PLM_HOLD_UNTRIED) {
        return "";
    }
    plmi_text_init(&text);
    plmi_text_puts(&text, hold_reason(finding));
    bool range = !isnan(finding->value_low) && !isnan(finding->value_high) &&
                 !reads_same(finding->value_low, finding->value_high, one->digits);
    if (range) {
        plmi_text_puts(&text, ", ");
        plmi_number_fixed(&text, finding->value_low, one->digits);
        plmi_text_puts(&text, " to ");
        plmi_view_number_write(&text, finding->value_high, one->digits, finding->unit);
    }
    plmi_text_puts(&text, finding->cells_differ ? ". Does not stand by every oxygen cell alone." : ".");
    return plmi_view_keep_text(view, &text);
}

/* What a cost is counted in. */
struct difference {
    const char *unit_of;
    double cost;
};

#define DIFFERENCES 4

/* "3.2 min of decompression, 1.5 points of CNS": costs where sign is 1, savings where it is -1. Returns: whether there
 * are any. */
static bool differences_add(struct plmi_text *text, const char *label, const struct difference list[DIFFERENCES],
                            int sign)
{
    bool any = false;
    for (int i = 0; i < DIFFERENCES; i++) {
        double shown = sign * list[i].cost;
        if (!(shown >= 0.05)) {
            continue;
        }
        plmi_text_puts(text, any ? ", " : label);
        if (isinf(shown)) {
            plmi_text_puts(text, "never-ending ");
        } else {
            plmi_number_fixed(text, shown, 1);
        }
        plmi_text_printf(text, " %s", list[i].unit_of);
        any = true;
    }
    if (any) {
        plmi_text_puts(text, ". ");
    }
    return any;
}

const char *plmi_view_cost_words(struct plmi_view *view, const struct plm_cost *cost)
{
    const struct difference list[DIFFERENCES] = {
        {"min of decompression", cost->decompression_min},
        {"points of surfacing gradient", cost->surfacing_gradient_points},
        {"points of peak gradient", cost->peak_gradient_points},
        {"points of CNS", cost->cns_points},
    };
    struct plmi_text text;
    plmi_text_init(&text);
    if (!differences_add(&text, "Cost: ", list, 1)) {
        plmi_text_puts(&text, "Cost: nothing. ");
    }
    differences_add(&text, "Saved: ", list, -1);
    return plmi_view_keep_text(view, &text);
}

static const char *compared_words(struct plmi_view *view, const struct plm_cost *cost)
{
    struct plmi_text text;
    plmi_text_init(&text);
    plmi_text_printf(&text, "Compared with: %s.", cost->put_right != NULL ? cost->put_right : "-");
    return plmi_view_keep_text(view, &text);
}

static const char *place_words(struct plmi_view *view, const struct plm_finding *finding)
{
    struct plmi_text text;
    plmi_text_init(&text);
    if (finding->first_line > 0 && finding->last_line > finding->first_line) {
        plmi_text_printf(&text, "lines %lu-%lu", (unsigned long)finding->first_line, (unsigned long)finding->last_line);
    } else if (finding->first_line > 0) {
        plmi_text_printf(&text, "line %lu", (unsigned long)finding->first_line);
    }
    return plmi_view_keep_text(view, &text);
}

void plmi_view_finding_words(struct plmi_view *view, struct plmi_view_finding *one)
{
    one->when = when_words(view, one->finding);
    one->measure = measure_words(view, one);
    one->hold_words = hold_words(view, one);
    one->cost_words = one->finding->cost.known ? plmi_view_cost_words(view, &one->finding->cost) : "";
    one->compared_words = one->finding->cost.known ? compared_words(view, &one->finding->cost) : "";
    one->place = place_words(view, one->finding);
}
