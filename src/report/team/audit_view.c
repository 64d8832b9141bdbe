/*
 * Chooses what an audit shows. Must not judge or compute figures of a dive.
 * SPDX-License-Identifier: MIT
 */
#include "report/team/audit_view.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include <plimsoll/names.h>

#include "base/number.h"
#include "report/view/view.h"

#define GETTER(name, expression)                              \
    static double get_##name(const struct plm_audit_row *row) \
    {                                                         \
        return expression;                                    \
    }

GETTER(index, row->index)
GETTER(team, row->team)
GETTER(serious, (double)row->serious)
GETTER(caution, (double)row->caution)
GETTER(note, (double)row->note)
GETTER(disagreements, (double)row->disagreements)
GETTER(max_depth_m, row->max_depth_m)
GETTER(duration_s, row->duration_s)
GETTER(surfacing_gradient_pct, row->surfacing_gradient_pct)
GETTER(gf_low_pct, row->gf_low_pct)
GETTER(gf_high_pct, row->gf_high_pct)
GETTER(peak_gradient_pct, row->peak_gradient_pct)
GETTER(cns_pct, row->cns_pct)
GETTER(cns_day_pct, row->cns_day_pct)
GETTER(otu, row->otu)
GETTER(otu_of_day, row->otu_of_day)
GETTER(esot, row->esot)
GETTER(owed_min, row->owed_min)
GETTER(done_min, row->done_min)
GETTER(clock_offset_s, row->clock_offset_s)
GETTER(cns_beyond_min, row->cns_beyond_min)

const struct plmi_audit_figure plmi_audit_figures[] = {
    {"index", 0, get_index},
    {"team", 0, get_team},
    {"serious", 0, get_serious},
    {"caution", 0, get_caution},
    {"note", 0, get_note},
    {"disagreements", 0, get_disagreements},
    {"max_depth_m", 1, get_max_depth_m},
    {"duration_s", 0, get_duration_s},
    {"surfacing_gradient_pct", 1, get_surfacing_gradient_pct},
    {"peak_gradient_pct", 1, get_peak_gradient_pct},
    {"gf_low_pct", 2, get_gf_low_pct},
    {"gf_high_pct", 2, get_gf_high_pct},
    {"cns_pct", 1, get_cns_pct},
    {"cns_day_pct", 1, get_cns_day_pct},
    {"otu", 0, get_otu},
    {"otu_of_day", 0, get_otu_of_day},
    {"esot", 0, get_esot},
    {"owed_min", 1, get_owed_min},
    {"done_min", 1, get_done_min},
    {"clock_offset_s", 0, get_clock_offset_s},
    {"cns_beyond_min", 1, get_cns_beyond_min},
};
const size_t plmi_audit_figure_count = sizeof plmi_audit_figures / sizeof plmi_audit_figures[0];

static const char *get_file(const struct plm_audit_row *row)
{
    return row->file;
}
static const char *get_sha256(const struct plm_audit_row *row)
{
    return row->sha256[0] ? row->sha256 : NULL;
}
static const char *get_date(const struct plm_audit_row *row)
{
    return row->date[0] ? row->date : NULL;
}
static const char *get_diver(const struct plm_audit_row *row)
{
    return row->diver;
}
static const char *get_recorder(const struct plm_audit_row *row)
{
    return row->recorder;
}
static const char *get_site(const struct plm_audit_row *row)
{
    return row->site;
}
static const char *get_card(const struct plm_audit_row *row)
{
    return row->card;
}
static const char *get_plan(const struct plm_audit_row *row)
{
    return row->plan;
}
static const char *get_disagreement(const struct plm_audit_row *row)
{
    return row->disagreement.text;
}

static const char *get_gf_from(const struct plm_audit_row *row)
{
    return plm_factors_from_text(row->factors_from);
}

const struct plmi_audit_word plmi_audit_words[] = {
    {"diver", get_diver},     {"date", get_date}, {"recorder", get_recorder},
    {"site", get_site},       {"file", get_file}, {"sha256", get_sha256},
    {"card", get_card},       {"plan", get_plan}, {"disagreement", get_disagreement},
    {"gf_from", get_gf_from},
};
const size_t plmi_audit_word_count = sizeof plmi_audit_words / sizeof plmi_audit_words[0];

/* Whether an earlier row of this day (or of all) is of the same diver. */
static bool diver_seen(const struct plm_audit_row *rows, size_t i, const char *date)
{
    for (size_t k = 0; k < i; k++) {
        if (rows[k].other_record < 0 && (date == NULL || strcmp(rows[k].date, date) == 0) &&
            plm_name_same(rows[k].diver, rows[i].diver)) {
            return true;
        }
    }
    return false;
}

static void day_add(struct plmi_audit_day *day, const struct plm_audit_row *rows, size_t i, const char *date)
{
    const struct plm_audit_row *row = &rows[i];
    day->records++;
    if (row->other_record >= 0) {
        return;
    }
    day->dives++;
    day->divers += row->diver != NULL && !diver_seen(rows, i, date);
    day->serious += row->serious;
    day->caution += row->caution;
    day->note += row->note;
    day->deepest_m = fmax(day->deepest_m, row->max_depth_m);
}

static int by_date(const void *a, const void *b)
{
    const char *x = ((const struct plmi_audit_day *)a)->date, *y = ((const struct plmi_audit_day *)b)->date;
    return x[0] && y[0] ? strcmp(x, y) : (x[0] == 0) - (y[0] == 0);
}

static struct plmi_audit_day *day_of(struct plmi_audit_view *view, const char *date)
{
    for (size_t i = 0; i < view->day_count; i++) {
        if (strcmp(view->days[i].date, date) == 0) {
            return &view->days[i];
        }
    }
    struct plmi_audit_day *day = &view->days[view->day_count++];
    memset(day, 0, sizeof *day);
    memcpy(day->date, date, sizeof day->date);
    return day;
}

static bool factors_same(const struct plm_audit_row *a, const struct plm_audit_row *b)
{
    return a->factors_from == b->factors_from && !(fabs(a->gf_low_pct - b->gf_low_pct) > 0) &&
           !(fabs(a->gf_high_pct - b->gf_high_pct) > 0);
}

static bool view_init(struct plmi_audit_view *view, const struct plm_report_audited *audited,
                      const struct plm_report_options *options)
{
    const struct plm_audit *audit = audited->audit;
    *view = (struct plmi_audit_view){.options = options,
                                     .page = audited->page,
                                     .files = plm_audit_files(audit),
                                     .passed_over = plm_audit_passed_over(audit)};
    view->rows = plm_audit_rows(audit, &view->row_count);
    view->troubles = plm_audit_troubles(audit, &view->trouble_count);
    view->days = calloc(view->row_count + 1, sizeof *view->days);
    if (view->days == NULL) {
        return false;
    }
    for (size_t i = 0; i < view->row_count; i++) {
        day_add(day_of(view, view->rows[i].date), view->rows, i, view->rows[i].date);
        day_add(&view->whole, view->rows, i, NULL);
        view->factors_alike = (i == 0 || view->factors_alike) && factors_same(&view->rows[0], &view->rows[i]);
    }
    qsort(view->days, view->day_count, sizeof *view->days, by_date);
    return true;
}

void plmi_audit_view_write(struct plmi_text *out, const struct plm_report_audited *audited,
                           const struct plm_report_options *options,
                           void (*write)(struct plmi_text *out, const struct plmi_audit_view *view))
{
    struct plmi_audit_view view;
    if (view_init(&view, audited, options)) {
        write(out, &view);
    } else {
        out->failed = true;
    }
    free(view.days);
}

void plmi_audit_factors_write(struct plmi_text *out, const struct plm_audit_row *row)
{
    plmi_view_factors_write(out, row->gf_low_pct, row->gf_high_pct);
    plmi_text_printf(out, " (%s)", plm_factors_from_text(row->factors_from));
}

void plmi_audit_judged_write(struct plmi_text *out, const struct plmi_audit_view *view)
{
    if (view->factors_alike) {
        plmi_text_puts(out, "Every dive judged by gradient factors ");
        plmi_view_factors_write(out, view->rows[0].gf_low_pct, view->rows[0].gf_high_pct);
        plmi_text_printf(out, ", %s", view->rows[0].factors_from == PLM_FACTORS_ASSUMED ? "assumed: " : "");
        plmi_text_puts(out, plmi_view_factors_from(view->rows[0].factors_from));
    } else if (view->row_count > 0) {
        plmi_text_puts(out, "Each dive judged by its own gradient factors (GF): from an option or a rules file, a dive "
                            "card, or the log; else assumed");
    }
}

size_t plmi_audit_other_records(const struct plmi_audit_view *view, size_t row)
{
    size_t other_records = 0;
    for (size_t i = 0; i < view->row_count; i++) {
        other_records += view->rows[i].other_record == (long)row;
    }
    return other_records;
}

/* Decompression and surfacing gradient, or else the peak; what is nothing is left out. */
static void cost_write(struct plmi_text *out, const struct plm_cost *cost)
{
    bool at_surface = cost->decompression_min >= 0.05 || cost->surfacing_gradient_points >= 0.05;
    const struct {
        double value;
        const char *unit;
    } parts[] = {
        {cost->decompression_min, " min"},
        {cost->surfacing_gradient_points, " points"},
        {at_surface ? 0.0 : cost->peak_gradient_points, " points at the peak"},
    };
    bool any = false;
    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++) {
        if (!(parts[i].value >= 0.05)) {
            continue;
        }
        plmi_text_puts(out, any ? " and " : ", cost ");
        plmi_number_fixed(out, parts[i].value, 1);
        plmi_text_puts(out, parts[i].unit);
        any = true;
    }
    if (!any) {
        plmi_text_puts(out, ", cost nothing");
    }
}

void plmi_audit_worst_write(struct plmi_text *out, const struct plm_audit_row *row)
{
    const struct plm_finding *worst = &row->worst;
    if (!row->has_worst) {
        if (row->disagreement.text != NULL) {
            plmi_text_puts(out, plm_finding_kind_text(PLM_FINDING_RECORDERS_DISAGREE));
        } else if (!isnan(row->clock_offset_s)) {
            plmi_text_puts(out, plm_finding_kind_text(PLM_FINDING_CLOCK_DOUBT));
        }
        return;
    }
    plmi_text_puts(out, worst->reviewer->kind);
    if (!isnan(worst->value)) {
        plmi_text_puts(out, " ");
        plmi_view_number_write(out, worst->value, plmi_view_unit_digits(worst->unit), worst->unit);
    }
    if (worst->hold != PLM_HOLD_UNTRIED) {
        plmi_text_printf(out, ", %s", plm_hold_text(worst->hold));
    }
    if (worst->cost.known) {
        cost_write(out, &worst->cost);
    }
}

void plmi_audit_doubt_write(struct plmi_text *out, const struct plm_audit_row *row)
{
    if (isnan(row->clock_offset_s)) {
        return;
    }
    const double quarter_s = 900;
    plmi_text_printf(out, "%s in %s would fit with ", row->recorder != NULL ? row->recorder : "the recorder",
                     row->file);
    plmi_text_puts(out, row->clock_offset_s < 0 ? "-" : "+");
    plmi_view_duration_write(out, fabs(row->clock_offset_s));
    plmi_text_puts(out, " added");
    if (!(fabs(fmod(row->clock_offset_s, quarter_s)) > 0)) {
        plmi_text_puts(out, ", as if set to another time zone");
    }
}

static const char *many(size_t count)
{
    return count == 1 ? "" : "s";
}

void plmi_audit_headline_write(struct plmi_text *out, const struct plmi_audit_view *view)
{
    const struct plmi_audit_day *whole = &view->whole;
    plmi_text_printf(out, "%zu dive%s of %zu diver%s on %zu day%s: ", whole->dives, many(whole->dives), whole->divers,
                     many(whole->divers), view->day_count, many(view->day_count));
    plmi_view_counts_write(out, whole->serious, whole->caution, whole->note);
}

void plmi_audit_files_write(struct plmi_text *out, const struct plmi_audit_view *view)
{
    plmi_text_printf(out, "%zu record%s in %zu file%s; %zu file%s with trouble, %zu passed over", view->whole.records,
                     many(view->whole.records), view->files, many(view->files), view->trouble_count,
                     many(view->trouble_count), view->passed_over);
}

void plmi_audit_day_write(struct plmi_text *out, const struct plmi_audit_day *day)
{
    plmi_text_printf(out, "%zu dive%s of %zu diver%s, to ", day->dives, many(day->dives), day->divers,
                     many(day->divers));
    plmi_view_number_write(out, day->deepest_m, 1, "m");
    plmi_text_puts(out, ": ");
    plmi_view_counts_write(out, day->serious, day->caution, day->note);
}

void plmi_audit_start_write(struct plmi_text *out, const struct plm_audit_row *row)
{
    int minutes = (int)((row->start.local_ms % 86400000 + 86400000) % 86400000 / 60000);
    plmi_text_puts(out, row->date);
    if (row->start.known && row->start.has_clock) {
        plmi_text_printf(out, " %02d:%02d", minutes / 60, minutes % 60);
    }
}

void plmi_audit_disagreement_write(struct plmi_text *out, const struct plm_audit_row *row)
{
    const struct plm_difference *worst = &row->disagreement;
    if (worst->text == NULL) {
        return;
    }
    plmi_text_printf(out, "%s %s", row->date[0] ? row->date + 5 : "", plm_difference_kind_text(worst->kind));
    if (!isnan(worst->from_s)) {
        plmi_text_puts(out, " at ");
        plmi_view_duration_write(out, worst->from_s);
    }
    if (!isnan(worst->ceiling_m)) {
        plmi_text_puts(out, ": ceiling ");
        plmi_view_change_write(out, worst->ceiling_m, 1);
        plmi_text_puts(out, " m, ");
        plmi_view_change_write(out, worst->decompression_min, 1);
        plmi_text_puts(out, " min");
    }
    if (row->disagreements > 1) {
        plmi_text_printf(out, "; %zu more", row->disagreements - 1);
    }
}
