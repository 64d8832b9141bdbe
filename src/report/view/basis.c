/*
 * What the figures stand on, in sentences for the head of a report: the gradient factors that judged and who states
 * them, and every guess that stands in for what the log lacks. Must not leave a guess out. SPDX-License-Identifier: MIT
 */
#include "report/view/build.h"

#include <math.h>
#include <string.h>

#include "base/figure.h"

#define BASIS_MAX 8

void plmi_view_factors_write(struct plmi_text *out, double low_pct, double high_pct)
{
    const int digits = 2;
    plmi_text_printf(out, "%s/%s", plmi_figure_short(low_pct, digits).text, plmi_figure_short(high_pct, digits).text);
}

const char *plmi_view_factors_from(enum plm_factors_from from)
{
    static const char *const words[] = {[PLM_FACTORS_ASSUMED] = "no option, card or log names any",
                                        [PLM_FACTORS_LOG] = "recorded in the log",
                                        [PLM_FACTORS_CARD] = "from the dive card",
                                        [PLM_FACTORS_OPTION] = "set by an option or a rules file"};
    return words[from];
}

static void factors_add(struct plmi_text *out, const struct plmi_view_from *from)
{
    bool assumed = from->debriefed->factors_from == PLM_FACTORS_ASSUMED;
    plmi_text_puts(out, assumed ? "Assumed: gradient factors " : "Gradient factors ");
    plmi_view_factors_write(out, from->assumed->gf_low_pct, from->assumed->gf_high_pct);
    plmi_text_printf(out, "%s %s", assumed ? ";" : ",", plmi_view_factors_from(from->debriefed->factors_from));
}

static void gas_add(struct plmi_text *out, const struct plmi_view_from *from)
{
    if (from->assumed->gas_assumed) {
        plmi_text_puts(out, "Assumed: air; the log names no gas");
    }
}

static void mode_add(struct plmi_text *out, const struct plmi_view_from *from)
{
    size_t count;
    const struct plm_setting *settings = plm_dive_settings(from->debriefed->dive, &count);
    if (!from->info->mode_known) {
        plmi_text_puts(out, settings[0].mode == PLM_MODE_OPEN
                                ? "Assumed: open circuit; the log names no breathing mode"
                                : "Assumed: closed loop, by set points or cells; the log names no breathing mode");
    }
}

static void supply_add(struct plmi_text *out, const struct plmi_view_from *from)
{
    if (from->assumed->semiclosed_assumed) {
        plmi_text_puts(out, "Assumed: the supply mix on the semi-closed loop; no oxygen pressure is recorded");
    }
}

static void surface_add(struct plmi_text *out, const struct plmi_view_from *from)
{
    const struct plm_assumed *assumed = from->assumed;
    bool standard = strcmp(assumed->surface_from, "standard") == 0;
    if (!standard && strncmp(assumed->surface_from, "altitude", 8) != 0) {
        return;
    }
    plmi_text_puts(out, "Assumed: surface pressure ");
    plmi_view_number_write(out, assumed->surface_bar, 3, "bar");
    if (standard) {
        plmi_text_puts(out, "; the log names none");
    } else {
        plmi_text_printf(out, ", from %s; the log names none", assumed->surface_from);
    }
}

static void clock_add(struct plmi_text *out, const struct plmi_view_from *from)
{
    const struct plm_stamp *start = &from->info->start;
    if (!start->known) {
        plmi_text_puts(out, "Not known: date and time of day; the log names none");
    } else if (!start->has_clock) {
        plmi_text_puts(out, "Not known: time of day; the log names a date alone");
    } else if (!start->has_zone) {
        plmi_text_puts(out, "Assumed: the clock shows local time; the log names no time zone");
    }
}

void plmi_view_add_basis(struct plmi_view *view, const struct plmi_view_from *from)
{
    static void (*const adds[])(struct plmi_text * out, const struct plmi_view_from *from) = {
        factors_add, gas_add, mode_add, supply_add, surface_add, clock_add};
    view->basis = plmi_view_room(view, BASIS_MAX, sizeof *view->basis);
    for (size_t i = 0; view->basis != NULL && i < sizeof adds / sizeof adds[0]; i++) {
        struct plmi_text text;
        plmi_text_init(&text);
        adds[i](&text, from);
        bool any = text.count > 0 || text.failed;
        const char *kept = plmi_view_keep_text(view, &text);
        if (any) {
            view->basis[view->basis_count++] = kept;
        }
    }
}
