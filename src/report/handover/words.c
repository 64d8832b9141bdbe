/*
 * The facts of a handover in words, and what every handover holds. Must not say what a figure means for a person.
 * SPDX-License-Identifier: MIT
 */
#include "report/handover/handover.h"

#include <math.h>
#include <string.h>

#include "base/clock.h"

const char *const plmi_handover_aid[] = {
    "Call the emergency services and a diving medical hotline now; nothing here may delay that.",
    "Oxygen as near to 100 % as can be had, from the start, without a break.",
    "Lying flat where symptoms came early or are severe.",
    "Write down dives, symptoms and care with their times; keep recorders and gas.",
    "No recompression in water without the team and the equipment for it.",
    "(ANZCOR 9.3.5; Mitchell et al. 2018, Diving Hyperb Med 48:45)",
};
const size_t plmi_handover_aid_count = sizeof plmi_handover_aid / sizeof plmi_handover_aid[0];

const struct plmi_handover_blank plmi_handover_blanks[] = {
    {"Symptoms, and at what time each began", 2, 3},
    {"Care so far: oxygen from when and how, fluids, medicines, position", 2, 2},
    {"Told by, telephone, time", 1, 0},
};
const size_t plmi_handover_blank_count = sizeof plmi_handover_blanks / sizeof plmi_handover_blanks[0];

const char plmi_handover_not_carried[] = "Tissues and oxygen above are counted without these dives.";

const char *plmi_handover_none(const struct plmi_handover *handover)
{
    return handover->elsewhere ? "no dive in the logs given or in the ledger" : "no dive in the logs given";
}

const char *plmi_handover_diver(const struct plm_report_options *options, const struct plmi_view *view)
{
    const char *diver = plmi_view_find(view, "diver")->text;
    diver = diver != NULL ? diver : options->diver;
    return diver != NULL ? diver : "not recorded";
}

static void number(struct plmi_text *out, double value, int digits, const char *unit)
{
    plmi_view_number_write(out, value, digits, unit);
}

void plmi_handover_began(struct plmi_text *out, const struct plm_stamp *start)
{
    const size_t minutes = 16; /* "2031-05-06T09:30" */
    size_t before = out->count;
    plmi_clock_write(out, start);
    if (out->failed || out->count < before + minutes) {
        return;
    }
    out->bytes[before + 10] = ' ';
    out->count = before + minutes;
    out->bytes[out->count] = '\0';
}

/* A date and clock with a blank between them. */
static void clock_add(struct plmi_text *out, const char *clock)
{
    const char *t = strchr(clock, 'T');
    plmi_text_add(out, clock, t != NULL ? (size_t)(t - clock) : strlen(clock));
    if (t != NULL) {
        plmi_text_printf(out, " %s", t + 1);
    }
}

void plmi_handover_when(struct plmi_text *out, const struct plmi_view *view)
{
    const char *start = plmi_view_find(view, "start")->text;
    if (start == NULL) {
        plmi_text_puts(out, "time of day not recorded");
    } else {
        clock_add(out, start);
    }
    if (view->surfaced_clock != NULL) {
        plmi_text_puts(out, view->surfaced ? ", at the surface " : ", last recorded ");
        clock_add(out, view->surfaced_clock);
    }
    plmi_text_puts(out, "; ");
    plmi_view_duration_write(out, view->surfaced_s);
    plmi_text_puts(out, view->surfaced ? " in all" : " recorded, the record ends below the surface");
}

static bool in_water(const struct plmi_view *view)
{
    return !isnan(plmi_view_find(view, "ends_in_water_m")->value);
}

void plmi_handover_decompression(struct plmi_text *out, const struct plmi_view *view)
{
    double owed_min = plmi_view_find(view, "owed_min")->value;
    if (!view->decompression_known || isnan(owed_min)) {
        plmi_text_puts(out, "not known");
        return;
    }
    plmi_view_sentence_write(out, view, "{ceiling_state}; bottom left at {bottom_end_s} from {bottom_end_depth_m}");
    if (view->stop_count > 0) {
        plmi_view_sentence_write(out, view, ", {owed_min} of stops required then; {done_min} done");
        plmi_view_sentence_write(out, view, in_water(view) ? " until the record ends, at {ends_in_water_m}" : "");
    }
}

/* The stretches that findings of a kind tell, as far as there is room. */
static size_t stretches_add(struct plmi_text *out, const struct plmi_view *view, enum plm_finding_kind kind,
                            const char *label)
{
    const size_t most = 3;
    size_t found = 0;
    for (size_t i = 0; i < view->finding_count; i++) {
        const struct plmi_view_finding *one = &view->findings[i];
        if (one->finding->kind != kind) {
            continue;
        }
        if (found < most) {
            plmi_text_printf(out, "%s%s", found == 0 ? label : "; ", one->when);
            plmi_text_puts(out, ", by ");
            number(out, one->finding->value, one->digits, one->finding->unit);
        }
        found++;
    }
    if (found > most) {
        plmi_text_printf(out, "; and %zu more", found - most);
    }
    return found;
}

static const struct plm_finding *finding_of(const struct plmi_view *view, enum plm_finding_kind kind)
{
    for (size_t i = 0; i < view->finding_count; i++) {
        if (view->findings[i].finding->kind == kind) {
            return view->findings[i].finding;
        }
    }
    return NULL;
}

void plmi_handover_ceiling(struct plmi_text *out, const struct plmi_view *view)
{
    const struct plm_finding *owing = finding_of(view, PLM_FINDING_SURFACED_OWING_STOPS);
    plmi_view_sentence_write(
        out, view, plmi_view_find(view, "deepest_ceiling_m")->value > 0 ? "deepest {deepest_ceiling_m}" : "none");
    if (stretches_add(out, view, PLM_FINDING_CEILING_EXCEEDED, "; above it ") == 0 &&
        plmi_view_find(view, "deepest_ceiling_m")->value > 0) {
        plmi_text_puts(out, in_water(view) ? "; at no time above it until the record ends" : "; at no time above it");
    }
    if (owing != NULL) {
        plmi_text_printf(out, ". %s", owing->text);
    }
}

static void climb_add(struct plmi_text *out, const struct plmi_view_climb *climb)
{
    if (isnan(climb->rate_m_min)) {
        plmi_text_puts(out, "none");
        return;
    }
    number(out, climb->rate_m_min, 1, "m/min");
    plmi_text_puts(out, " at ");
    number(out, climb->depth_m, 1, "m, ");
    plmi_view_duration_write(out, climb->at_s);
}

void plmi_handover_ascent(struct plmi_text *out, const struct plmi_view *view)
{
    const struct plmi_view_climb *deep = &view->climbs[PLMI_VIEW_CLIMB_DEEP],
                                 *shallow = &view->climbs[PLMI_VIEW_CLIMB_SHALLOW];
    plmi_text_puts(out, "fastest deeper than ");
    number(out, deep->from_m, 0, "m: ");
    climb_add(out, deep);
    plmi_text_puts(out, "; within the last ");
    number(out, shallow->to_m, 0, "m: ");
    climb_add(out, shallow);
    if (!isnan(plmi_view_find(view, "from_3_m_s")->value)) {
        plmi_view_sentence_write(out, view,
                                 "; last at 6 m {from_6_m_s} before the surface, at 3 m {from_3_m_s} (min:s)");
    }
}

void plmi_handover_oxygen(struct plmi_text *out, const struct plmi_view *view)
{
    const size_t band = 4; /* above 1.5 bar */
    plmi_view_sentence_write(out, view,
                             "CNS clock {cns_pct} of a single exposure, {cns_day_pct} of 24 hours; {otu}; pressure "
                             "{min_po2_bar} to {max_po2_bar}, ");
    number(out, view->bands[band].over_min, 1, "min above ");
    number(out, view->bands[band].limit_bar, 1, "bar");
}

void plmi_handover_tissues(struct plmi_text *out, const struct plmi_view *view)
{
    plmi_view_sentence_write(
        out, view,
        in_water(view)
            ? "at the surface not known, since the record ends in the water, at {ends_in_water_m}; "
              "until then {peak_gradient_pct} of the M-value gradient at most"
            : "{surfacing_gradient_pct} of the M-value gradient at the surface, at most {peak_gradient_pct}");
    plmi_view_sentence_write(out, view, "; {model}; {start_from}");
}

void plmi_handover_gas(struct plmi_text *out, const struct plmi_view *view)
{
    plmi_view_sentence_write(out, view, "density at most {max_density_g_l}, narcotic depth at most {max_end_m}");
}

void plmi_handover_basis(struct plmi_text *out, const struct plmi_view *view)
{
    for (size_t i = 0; i < view->basis_count; i++) {
        plmi_text_printf(out, "%s%s.", i > 0 ? " " : "", view->basis[i]);
    }
}

void plmi_handover_log(struct plmi_text *out, const struct plmi_view *view)
{
    plmi_view_sentence_write(out, view, "{file}, dive {index}, {samples} samples, SHA-256 {sha256}");
}
