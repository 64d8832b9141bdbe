/*
 * A diver's days as one page of HTML: weeks as rows of days, each with three columns of load against one load line,
 * then tables. Must not hold a figure that the tables of figures lack.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "report/html/html.h"
#include "report/ledger/view.h"
#include "report/html/svg.h"
#include "report/view/view.h"
#include "report/output/whole.h"

#define DAY_PX 88
/* Percent of its limit at which a column reaches the top of the picture. */
#define TOP_PCT 150

/* The columns of a day's picture: each in percent of a limit, so that one line is the limit of all. */
static const struct {
    const char *key, *class_name, *words;
} LOADS[] = {
    {"surfacing_gradient_pct", "gradient", "highest surfacing gradient, of the M-value"},
    {"cns_day_pct", "clock", "oxygen clock of 24 hours"},
    {"otu_run_used_pct", "units", "OTU of the run of days, of what REPEX allows"},
};
#define LOAD_COUNT (sizeof LOADS / sizeof LOADS[0])

static const struct plmi_html_column DAYS[] = {
    {"Day", ""},         {"Dives", "n"},       {"Runtime, min", "n"}, {"Deepest, m", "n"},       {"Surfacing, %", "n"},
    {"CNS, %", "n"},     {"CNS 24 h, %", "n"}, {"OTU", "n"},          {"a day's share", "n"},    {"Day of run", "n"},
    {"OTU of run", "n"}, {"allowed", "n"},     {"ESOT", "n"},         {"What was exceeded", ""},
};
static const char *const DAY_KEYS[] = {
    "dives",       "runtime_min",         "max_depth_m", "surfacing_gradient_pct", "cns_pct", "cns_day_pct", "otu",
    "otu_allowed", "days_since_rest_day", "otu_run",     "otu_run_allowed",        "esot"};

static const struct plmi_html_column DIVES[] = {
    {"Dive", "n"},          {"Start", ""},         {"Deepest, m", "n"},       {"Runtime, min", "n"},
    {"Interval, min", "n"}, {"Surfacing, %", "n"}, {"CNS, %", "n"},           {"OTU", "n"},
    {"Owed, min", "n"},     {"Done, min", "n"},    {"What was exceeded", ""},
};
static const char *const DIVE_KEYS[] = {
    "max_depth_m", "runtime_min", "surface_interval_min", "surfacing_gradient_pct", "cns_pct", "otu",
    "owed_min",    "done_min"};

#define LENGTH(array) (sizeof(array) / sizeof(array)[0])

static double load_of(const struct plm_day *day, size_t i)
{
    return plmi_ledger_figure_find(&plmi_ledger_day_figures, LOADS[i].key)->get(day);
}

/* What the picture shows, in words. */
static void describe(struct plmi_text *out, const struct plm_day *day)
{
    for (size_t i = 0; i < LOAD_COUNT; i++) {
        plmi_text_puts(out, i > 0 ? "; " : "");
        plmi_view_number_write(out, load_of(day, i), 0, "%");
        plmi_text_printf(out, " %s", LOADS[i].words);
    }
}

static void picture_write(struct plmi_text *out, const struct plm_day *day)
{
    const struct plmi_svg_scale scale = {0, TOP_PCT, 100, 0};
    const double line_pct = plmi_svg_scale_pct(&scale, 100);
    struct plmi_text name, desc;
    plmi_text_init(&name);
    plmi_text_init(&desc);
    plmi_ledger_date_write(&name, day->day);
    describe(&desc, day);
    plmi_svg_begin(out, "day-load", DAY_PX,
                   &(struct plmi_svg_name){name.bytes != NULL ? name.bytes : "", desc.bytes != NULL ? desc.bytes : ""});
    for (size_t i = 0; i < LOAD_COUNT; i++) {
        double load = load_of(day, i), x_pct = 8 + 30 * (double)i;
        if (!(load > 0)) {
            continue;
        }
        double top_pct = plmi_svg_scale_held_pct(&scale, load);
        plmi_svg_rect(out, LOADS[i].class_name, x_pct, fmax(top_pct, line_pct), 24, 100 - fmax(top_pct, line_pct));
        if (load > 100) {
            plmi_svg_rect(out, "above", x_pct, top_pct, 24, line_pct - top_pct);
        }
    }
    plmi_svg_line(out, "load-line", 0, line_pct, 100, line_pct);
    plmi_svg_end(out);
    out->failed = out->failed || name.failed || desc.failed;
    plmi_text_free(&name);
    plmi_text_free(&desc);
}

static void day_cell(struct plmi_text *out, const struct plm_day *day)
{
    struct plmi_text text;
    plmi_html_open(out, "td", day->run_days > 1 ? "dived on" : "dived");
    plmi_text_init(&text);
    plmi_ledger_date_write(&text, day->day);
    plmi_text_printf(out, "<b>%s</b>", text.bytes != NULL && text.count == 10 ? text.bytes + 8 : "");
    if (day->serious + day->caution > 0) {
        plmi_html_text(out, "span", day->serious > 0 ? "flagged serious" : "flagged caution",
                       day->serious > 0 ? "serious" : "caution");
    }
    picture_write(out, day);
    out->failed = out->failed || text.failed;
    plmi_text_clear(&text);
    plmi_text_printf(&text, "%zu dive%s, ", day->dives, day->dives == 1 ? "" : "s");
    plmi_view_number_write(&text, day->max_depth_m, 0, "m");
    plmi_html_made(out, "div", "when", &text);
    plmi_html_close(out, "td");
}

/* A day without a dive: its number alone. */
static void empty_cell(struct plmi_text *out, int64_t day)
{
    struct plmi_text date;
    plmi_text_init(&date);
    plmi_ledger_date_write(&date, day);
    plmi_html_text(out, "td", "off", date.bytes != NULL && date.count == 10 ? date.bytes + 8 : "");
    out->failed = out->failed || date.failed;
    plmi_text_free(&date);
}

/* The Monday of a day's week; 1970-01-01 was a Thursday. */
static int64_t monday_of(int64_t day)
{
    return day - ((day + 3) % 7 + 7) % 7;
}

static void gap_row(struct plmi_text *out, int64_t weeks)
{
    plmi_text_printf(out, "<tr><td class=\"weeks\" colspan=\"8\">%lld week%s without a dive</td></tr>\n",
                     (long long)weeks, weeks == 1 ? "" : "s");
}

/* One week; moves *next to the first day behind it. */
static void week_row(struct plmi_text *out, const struct plm_ledger_shown *shown, size_t *next)
{
    const int64_t monday = monday_of(shown->days[*next].day);
    struct plmi_text date;
    plmi_text_init(&date);
    plmi_ledger_date_write(&date, monday);
    plmi_text_puts(out, "<tr>");
    plmi_text_printf(out, "<th scope=\"row\">%.7s</th>", date.bytes != NULL ? date.bytes : "");
    for (int64_t day = monday; day < monday + 7; day++) {
        if (*next < shown->day_count && shown->days[*next].day == day) {
            day_cell(out, &shown->days[(*next)++]);
        } else {
            empty_cell(out, day);
        }
    }
    plmi_text_puts(out, "</tr>\n");
    out->failed = out->failed || date.failed;
    plmi_text_free(&date);
}

static void weeks_write(struct plmi_text *out, const struct plm_ledger_shown *shown)
{
    static const char *const weekdays[] = {"Mo", "Tu", "We", "Th", "Fr", "Sa", "Su"};
    plmi_text_puts(out, "<figure>\n<figcaption><b>Load by day</b>");
    for (size_t i = 0; i < LOAD_COUNT; i++) {
        plmi_text_printf(out, "<span class=\"key\"><i class=\"%s\"></i>%s</span>", LOADS[i].class_name, LOADS[i].words);
    }
    plmi_text_puts(out, "<span class=\"key\"><i class=\"load-line\"></i>the limit of each: 100 %</span></figcaption>\n"
                        "<table class=\"weeks\">\n<thead><tr><th scope=\"col\"></th>");
    for (int i = 0; i < 7; i++) {
        plmi_text_printf(out, "<th scope=\"col\">%s</th>", weekdays[i]);
    }
    plmi_text_puts(out, "</tr></thead>\n<tbody>\n");
    for (size_t next = 0; next < shown->day_count;) {
        int64_t before =
            next > 0 ? (monday_of(shown->days[next].day) - monday_of(shown->days[next - 1].day)) / 7 - 1 : 0;
        if (before > 0) {
            gap_row(out, before);
        }
        week_row(out, shown, &next);
    }
    plmi_text_puts(out, "</tbody>\n</table>\n</figure>\n");
}

static void cells_write(struct plmi_text *out, const struct plmi_html_column *columns,
                        const struct plmi_ledger_figures *figures, const char *const *keys, size_t count,
                        const void *of)
{
    for (size_t i = 0; i < count; i++) {
        const struct plmi_ledger_figure *figure = plmi_ledger_figure_find(figures, keys[i]);
        plmi_html_least_cell(out, &columns[i], figure->get(of), figure->digits, plmi_ledger_figure_least(figure, of));
    }
}

static void exceeded_cell(struct plmi_text *out, const struct plmi_html_column *column, size_t serious, size_t caution,
                          size_t note, const char *worst)
{
    struct plmi_text text;
    plmi_text_init(&text);
    plmi_view_counts_write(&text, serious, caution, note);
    plmi_html_cell_open(out, column);
    plmi_html_made(out, "div", serious > 0 ? "flagged serious" : caution > 0 ? "flagged caution" : "", &text);
    if (worst != NULL && serious + caution > 0) {
        plmi_html_text(out, "div", "when", worst);
    }
    plmi_html_close(out, "td");
}

static void days_write(struct plmi_text *out, const struct plm_ledger_shown *shown)
{
    plmi_html_table_begin(out, "overview days",
                          "Day by day. A run of days ends with a day without a dive; ESOT is told without a limit.",
                          DAYS, LENGTH(DAYS));
    for (size_t i = 0; i < shown->day_count; i++) {
        const struct plm_day *day = &shown->days[i];
        struct plmi_text date;
        plmi_text_init(&date);
        plmi_ledger_date_write(&date, day->day);
        plmi_text_puts(out, "<tr>");
        plmi_html_cell(out, &DAYS[0], date.bytes != NULL ? date.bytes : "");
        cells_write(out, DAYS + 1, &plmi_ledger_day_figures, DAY_KEYS, LENGTH(DAY_KEYS), day);
        exceeded_cell(out, &DAYS[LENGTH(DAYS) - 1], day->serious, day->caution, day->note, NULL);
        plmi_text_puts(out, "</tr>\n");
        out->failed = out->failed || date.failed;
        plmi_text_free(&date);
    }
    plmi_html_table_end(out);
}

static void beyond_write(struct plmi_text *out, const struct plm_ledger_shown *shown)
{
    for (size_t i = 0; i < shown->day_count; i++) {
        struct plmi_text text;
        plmi_text_init(&text);
        if (plmi_ledger_beyond_write(&text, &shown->days[i])) {
            plmi_html_made(out, "p", "aside", &text);
        }
    }
}

static void dives_write(struct plmi_text *out, const struct plm_ledger_shown *shown)
{
    plmi_html_table_begin(out, "overview dives", "Dives", DIVES, LENGTH(DIVES));
    for (size_t i = 0; i < shown->dive_count; i++) {
        const struct plm_entry *entry = &shown->dives[i];
        struct plmi_text start;
        plmi_text_init(&start);
        plmi_ledger_start_write(&start, &entry->exposure.span);
        plmi_text_puts(out, "<tr>");
        plmi_html_number_cell(out, &DIVES[0], (double)entry->exposure.id, 0);
        plmi_html_cell(out, &DIVES[1], start.bytes != NULL ? start.bytes : "");
        cells_write(out, DIVES + 2, &plmi_ledger_dive_figures, DIVE_KEYS, LENGTH(DIVE_KEYS), entry);
        exceeded_cell(out, &DIVES[LENGTH(DIVES) - 1], entry->figures.serious, entry->figures.caution,
                      entry->figures.note, entry->figures.worst);
        plmi_text_puts(out, "</tr>\n");
        out->failed = out->failed || start.failed;
        plmi_text_free(&start);
    }
    plmi_html_table_end(out);
}

void plmi_ledger_show_html(struct plmi_text *out, const void *what, const struct plm_report_options *options)
{
    static const struct plmi_html_page page = {.title = "Plimsoll: a diver's days", .script = false};
    const struct plm_ledger_shown *shown = what;
    struct plmi_text text;
    (void)options;
    plmi_html_page_begin(out, &page);
    plmi_html_open(out, "article", "ledger");
    plmi_text_init(&text);
    plmi_ledger_headline_write(&text, shown);
    plmi_html_made(out, "h1", "", &text);
    if (shown->day_count > 0) {
        weeks_write(out, shown);
        days_write(out, shown);
        beyond_write(out, shown);
        dives_write(out, shown);
    }
    plmi_html_text(out, "p", "aside", plmi_ledger_own_caution);
    plmi_html_cautions(out, plmi_standing_cautions, plmi_standing_caution_count);
    plmi_html_close(out, "article");
    plmi_html_page_end(out, &page);
}
