/*
 * The sentences about one finding: when, how much, whether it holds, what it cost. Must not choose findings.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "base/number.h"
#include "report/view_build.h"

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
    if (!isnan(finding->value))
        plmi_view_number_write(&text, finding->value, one->digits, finding->unit);
    if (!isnan(finding->value) && !isnan(finding->limit)) {
        plmi_text_puts(&text, ", limit ");
        plmi_view_number_write(&text, finding->limit, one->digits, finding->unit);
    }
    return plmi_view_keep_text(view, &text);
}

static const char *hold_words(struct plmi_view *view, const struct plmi_view_finding *one)
{
    const struct plm_finding *finding = one->finding;
    struct plmi_text text;
    plmi_text_init(&text);
    if (finding->hold != PLM_HOLD_UNTRIED)
        plmi_text_puts(&text, finding->hold == PLM_HOLD_FIRM ? "Firm: it stands across the recorder's tolerance"
                                                             : "Marginal: within the recorder's tolerance it may not have been");
    if (text.count > 0 && !isnan(finding->value_low) && !isnan(finding->value_high)) {
        plmi_text_puts(&text, " (");
        plmi_number_fixed(&text, finding->value_low, one->digits);
        plmi_text_puts(&text, " to ");
        plmi_view_number_write(&text, finding->value_high, one->digits, finding->unit);
        plmi_text_puts(&text, ")");
    }
    if (text.count > 0)
        plmi_text_puts(&text, ".");
    return plmi_view_keep_text(view, &text);
}

/* "decompression 3.2 min less"; a difference that rounds to nothing is left out. */
static void difference_add(struct plmi_text *text, size_t *told, const char *what, double cost, const char *unit)
{
    if (isnan(cost) || fabs(cost) < 0.05)
        return;
    plmi_text_printf(text, "%s%s ", (*told)++ > 0 ? ", " : "", what);
    plmi_view_number_write(text, fabs(cost), 1, unit);
    plmi_text_puts(text, cost > 0 ? " less" : " more");
}

const char *plmi_view_cost_words(struct plmi_view *view, const struct plm_cost *cost)
{
    struct plmi_text text;
    size_t told = 0;
    plmi_text_init(&text);
    plmi_text_printf(&text, "Had it been put right (%s): ", cost->put_right != NULL ? cost->put_right : "");
    difference_add(&text, &told, "decompression", cost->decompression_min, "min");
    difference_add(&text, &told, "surfacing gradient", cost->surfacing_gradient_points, "points");
    difference_add(&text, &told, "peak gradient", cost->peak_gradient_points, "points");
    difference_add(&text, &told, "CNS", cost->cns_points, "points");
    plmi_text_puts(&text, told > 0 ? "." : "no difference worth the name; it cost nothing.");
    return plmi_view_keep_text(view, &text);
}

static const char *place_words(struct plmi_view *view, const struct plm_finding *finding)
{
    struct plmi_text text;
    plmi_text_init(&text);
    if (finding->first_line > 0 && finding->last_line > finding->first_line)
        plmi_text_printf(&text, "lines %lu-%lu", (unsigned long)finding->first_line, (unsigned long)finding->last_line);
    else if (finding->first_line > 0)
        plmi_text_printf(&text, "line %lu", (unsigned long)finding->first_line);
    return plmi_view_keep_text(view, &text);
}

void plmi_view_finding_words(struct plmi_view *view, struct plmi_view_finding *one)
{
    one->when = when_words(view, one->finding);
    one->measure = measure_words(view, one);
    one->hold_words = hold_words(view, one);
    one->cost_words = one->finding->cost.known ? plmi_view_cost_words(view, &one->finding->cost) : "";
    one->place = place_words(view, one->finding);
}
