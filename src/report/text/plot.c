/*
 * Cells into letters: rows of depth, the axis of runtime, the marks of findings. Must not know how strips are filled.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <stdint.h>
#include <string.h>

#include "base/number.h"
#include "report/text/plot.h"

#define GUTTER           6 /* "  100 " and the axis behind it */
#define MARK_ROWS        6
#define TIME_COLUMNS_MIN 9 /* from one time under the axis to the next */
#define DOWN_ASCII       3

static const struct plmi_letters {
    const char *fill, *axis, *tick, *corner, *bar, *bar_tick, *reach;
} unicode_letters = {"░", "│", "┤", "└", "─", "┴", "─"}, ascii_letters = {":", "|", "+", "+", "-", "+", "-"};

/* A picture on its way to the page. */
struct picture {
    struct plmi_page *page;
    const struct plmi_letters *letters;
    struct plmi_plot_grid grid;
    bool ascii;
    enum plmi_page_tone tone; /* in force */
};

static void tone_set(struct picture *picture, enum plmi_page_tone tone)
{
    if (picture->tone != tone) {
        plmi_page_tone(picture->page, tone);
    }
    picture->tone = tone;
}

static void put(struct picture *picture, enum plmi_page_tone tone, const char *letter)
{
    tone_set(picture, tone);
    plmi_text_puts(picture->page->out, letter);
}

static void line_end(struct picture *picture)
{
    tone_set(picture, PLMI_PAGE_PLAIN);
    plmi_page_line_end(picture->page);
}

/* Which of parts, counted from the surface over all rows, a share of the height falls into. */
static int part_of(const struct picture *picture, double share, int down)
{
    int parts = picture->grid.rows * down;
    int part = (int)floor(share * parts);
    return part < 0 ? 0 : part >= parts ? parts - 1 : part;
}

/* Dots of a cell as the Braille patterns of Unicode have them; 0 where the line does not pass. */
static unsigned braille_bits(const struct picture *picture, int row, int column)
{
    static const unsigned bits[PLMI_PLOT_ACROSS][PLMI_PLOT_DOWN] = {{0x01, 0x02, 0x04, 0x40}, {0x08, 0x10, 0x20, 0x80}};
    unsigned found = 0;
    for (int across = 0; across < PLMI_PLOT_ACROSS; across++) {
        const struct plmi_plot_strip *strip = &picture->grid.strips[column * PLMI_PLOT_ACROSS + across];
        if (strip->least > strip->most) {
            continue;
        }
        int first = part_of(picture, strip->least, PLMI_PLOT_DOWN),
            last = part_of(picture, strip->most, PLMI_PLOT_DOWN);
        for (int down = 0; down < PLMI_PLOT_DOWN; down++) {
            if (row * PLMI_PLOT_DOWN + down >= first && row * PLMI_PLOT_DOWN + down <= last) {
                found |= bits[across][down];
            }
        }
    }
    return found;
}

/* The column's two strips as one. */
static struct plmi_plot_strip column_strip(const struct picture *picture, int column)
{
    const struct plmi_plot_strip *a = &picture->grid.strips[column * PLMI_PLOT_ACROSS], *b = a + 1;
    return (struct plmi_plot_strip){fmin(a->least, b->least), fmax(a->most, b->most), fmax(a->ceiling, b->ceiling),
                                    a->above || b->above};
}

/* The letter of the line in a cell: its height within the cell, or its slope where it passes several; NULL where it
 * does not pass. */
static const char *ascii_line(const struct picture *picture, int row, int column)
{
    static const char *const heights[DOWN_ASCII] = {"'", "-", "."};
    const struct plmi_plot_strip *a = &picture->grid.strips[column * PLMI_PLOT_ACROSS], *b = a + 1;
    struct plmi_plot_strip strip = column_strip(picture, column);
    if (strip.least > strip.most) {
        return NULL;
    }
    int first = part_of(picture, strip.least, DOWN_ASCII), last = part_of(picture, strip.most, DOWN_ASCII);
    if (row < first / DOWN_ASCII || row > last / DOWN_ASCII) {
        return NULL;
    }
    int middle = (first + last) / 2;
    if (last - first < DOWN_ASCII) {
        return row == middle / DOWN_ASCII ? heights[middle % DOWN_ASCII] : NULL;
    }
    double slope = b->most + b->least - a->most - a->least;
    return slope > 0 ? "\\" : slope < 0 ? "/" : "|";
}

static void cell_put(struct picture *picture, int row, int column)
{
    struct plmi_plot_strip strip = column_strip(picture, column);
    char letter[4] = "";
    const char *line = letter;
    if (picture->ascii) {
        line = ascii_line(picture, row, column);
    } else {
        unsigned bits = braille_bits(picture, row, column);
        if (bits != 0) {
            letter[0] = (char)0xe2;
            letter[1] = (char)(0xa0 | bits >> 6);
            letter[2] = (char)(0x80 | (bits & 0x3f));
        }
    }
    if (line != NULL && line[0] != '\0') {
        put(picture, strip.above ? PLMI_PAGE_SERIOUS : PLMI_PAGE_LINE, line);
    } else if (strip.ceiling * picture->grid.rows >= row + 0.5) {
        put(picture, PLMI_PAGE_FILL, picture->letters->fill);
    } else {
        put(picture, PLMI_PAGE_PLAIN, " ");
    }
}

/* A depth to name at each row, NaN for none: round ones, the surface first, with no two on one row. */
static void depth_names(const struct picture *picture, double names_m[PLMI_PLOT_ROWS_MAX])
{
    static const double round_m[] = {0, 10, 20, 50, 100, 6, 30, 3, 40, 70, 150, 15, 80, 60, 120, 200, 250, 300};
    for (int row = 0; row < PLMI_PLOT_ROWS_MAX; row++) {
        names_m[row] = (double)NAN;
    }
    for (size_t i = 0; i < sizeof round_m / sizeof round_m[0]; i++) {
        double share = log(plm_ambient_bar(picture->grid.surface_bar, round_m[i], picture->grid.water_kg_m3) /
                           picture->grid.surface_bar) /
                       picture->grid.lowest;
        int row = (int)floor(share * picture->grid.rows);
        bool fits = row < picture->grid.rows && isnan(names_m[row]) && (row == 0 || isnan(names_m[row - 1])) &&
                    (row + 1 >= picture->grid.rows || isnan(names_m[row + 1]));
        if (fits) {
            names_m[row] = round_m[i];
        }
    }
}

static void rows_write(struct picture *picture)
{
    double names_m[PLMI_PLOT_ROWS_MAX];
    struct plmi_text name;
    plmi_text_init(&name);
    depth_names(picture, names_m);
    for (int row = 0; row < picture->grid.rows; row++) {
        bool named = !isnan(names_m[row]);
        plmi_text_clear(&name);
        if (named) {
            plmi_number_fixed(&name, names_m[row], 0);
            plmi_text_puts(&name, row == 0 ? " m" : "");
        }
        picture->page->out->failed = picture->page->out->failed || name.failed;
        plmi_page_cell(picture->page, 1 - GUTTER, name.bytes != NULL && named ? name.bytes : "");
        plmi_text_puts(picture->page->out, named ? picture->letters->tick : picture->letters->axis);
        for (int column = 0; column < picture->grid.columns; column++) {
            cell_put(picture, row, column);
        }
        line_end(picture);
    }
    plmi_text_free(&name);
}

/* Round steps of runtime [min]. */
static double time_step_s(const struct plmi_plot_grid *grid)
{
    static const double steps_min[] = {1, 2, 5, 10, 15, 20, 30, 60, 120, 240, 480, 960};
    size_t i = 0;
    const size_t last = sizeof steps_min / sizeof steps_min[0] - 1;
    while (i < last && steps_min[i] * 60 / (grid->to_s - grid->from_s) * grid->columns < TIME_COLUMNS_MIN) {
        i++;
    }
    return steps_min[i] * 60;
}

static void axis_write(struct picture *picture)
{
    const struct plmi_plot_grid *grid = &picture->grid;
    double step_s = time_step_s(grid);
    bool ticks[PLMI_PLOT_COLUMNS_MAX] = {false};
    struct plmi_text times, name;
    plmi_text_init(&times);
    plmi_text_init(&name);
    for (double at_s = ceil(grid->from_s / step_s) * step_s; at_s <= grid->to_s; at_s += step_s) {
        int column = plmi_plot_grid_column(grid, at_s);
        plmi_text_clear(&name);
        plmi_view_duration_write(&name, at_s);
        picture->page->out->failed = picture->page->out->failed || name.failed;
        ticks[column] = true;
        if (column + (int)name.count > grid->columns) {
            continue;
        }
        while (!times.failed && (int)times.count < column) {
            plmi_text_puts(&times, " ");
        }
        plmi_text_puts(&times, name.bytes != NULL ? name.bytes : "");
    }
    plmi_page_cell(picture->page, 1 - GUTTER, "");
    plmi_text_puts(picture->page->out, picture->letters->corner);
    for (int column = 0; column < grid->columns; column++) {
        plmi_text_puts(picture->page->out, ticks[column] ? picture->letters->bar_tick : picture->letters->bar);
    }
    line_end(picture);
    plmi_page_cell(picture->page, GUTTER, "");
    plmi_text_puts(picture->page->out, times.bytes != NULL ? times.bytes : "");
    line_end(picture);
    picture->page->out->failed = picture->page->out->failed || times.failed || name.failed;
    plmi_text_free(&times);
    plmi_text_free(&name);
}

/* Rows of marks: in each cell the finding (from 1) whose mark it is, 0 none; its first cells hold its number. */
struct marks {
    size_t at[MARK_ROWS][PLMI_PLOT_COLUMNS_MAX];
    int first[MARK_ROWS][PLMI_PLOT_COLUMNS_MAX];
    int rows;
    size_t left_out;
};

static bool marks_free(const struct marks *marks, int row, int from, int to, int columns)
{
    for (int column = from > 0 ? from - 1 : 0; column <= to + 1 && column < columns; column++) {
        if (marks->at[row][column] != 0) {
            return false;
        }
    }
    return true;
}

static void mark_place(const struct plmi_plot_grid *grid, struct marks *marks, size_t number,
                       const struct plm_finding *finding)
{
    int wide = number > 99 ? 3 : number > 9 ? 2 : 1;
    int from = plmi_plot_grid_column(grid, finding->from_s),
        to = plmi_plot_grid_column(grid, fmax(finding->from_s, finding->to_s));
    from = from + wide > grid->columns ? grid->columns - wide : from;
    to = to < from + wide - 1 ? from + wide - 1 : to;
    for (int row = 0; row < MARK_ROWS; row++) {
        if (marks_free(marks, row, from, to, grid->columns)) {
            for (int column = from; column <= to; column++) {
                marks->at[row][column] = number;
                marks->first[row][column] = from;
            }
            marks->rows = row + 1 > marks->rows ? row + 1 : marks->rows;
            return;
        }
    }
    marks->left_out++;
}

static void mark_put(struct picture *picture, const struct plmi_view *view, const struct marks *marks, int row,
                     int column)
{
    static const enum plmi_page_tone tones[] = {PLMI_PAGE_NOTE, PLMI_PAGE_CAUTION, PLMI_PAGE_SERIOUS};
    size_t number = marks->at[row][column];
    char digits[2] = "";
    if (number == 0) {
        put(picture, PLMI_PAGE_PLAIN, " ");
        return;
    }
    int wide = number > 99 ? 3 : number > 9 ? 2 : 1;
    int place = column - marks->first[row][column];
    for (size_t rest = number, left = (size_t)wide; place < wide && left > (size_t)place; left--, rest /= 10) {
        digits[0] = (char)('0' + rest % 10);
    }
    put(picture, tones[view->findings[number - 1].finding->severity], place < wide ? digits : picture->letters->reach);
}

static void marks_write(struct picture *picture, const struct plmi_view *view)
{
    struct marks marks = {.rows = 0};
    for (size_t i = 0; i < view->finding_count && i < 999; i++) {
        if (!isnan(view->findings[i].finding->from_s)) {
            mark_place(&picture->grid, &marks, i + 1, view->findings[i].finding);
        }
    }
    for (int row = 0; row < marks.rows; row++) {
        plmi_page_cell(picture->page, GUTTER, "");
        for (int column = 0; column < picture->grid.columns; column++) {
            mark_put(picture, view, &marks, row, column);
        }
        line_end(picture);
    }
    if (marks.left_out > 0) {
        plmi_text_printf(picture->page->out, "      and %zu more, which find no room here\n", marks.left_out);
    }
}

static void legend_write(struct picture *picture, const struct plmi_view *view)
{
    plmi_page_cell(picture->page, GUTTER, "");
    put(picture, PLMI_PAGE_LINE, picture->ascii ? "'-." : "⠉⠒⠤");
    put(picture, PLMI_PAGE_PLAIN, " depth   ");
    put(picture, PLMI_PAGE_FILL, picture->ascii ? ":::" : "░░░");
    put(picture, PLMI_PAGE_PLAIN, " above the ceiling");
    if (view->finding_count > 0) {
        put(picture, PLMI_PAGE_PLAIN, "   1.. findings, by number");
    }
    line_end(picture);
}

void plmi_plot_write(struct plmi_page *page, const struct plmi_view *view, const struct plmi_plot_options *options)
{
    struct picture picture = {.page = page, .ascii = options->ascii, .tone = PLMI_PAGE_PLAIN};
    int columns = options->columns < PLMI_PLOT_COLUMNS_MAX ? options->columns : PLMI_PLOT_COLUMNS_MAX;
    int rows = options->rows < PLMI_PLOT_ROWS_MAX ? options->rows : PLMI_PLOT_ROWS_MAX;
    picture.letters = options->ascii ? &ascii_letters : &unicode_letters;
    plmi_plot_grid_fill(&picture.grid, view, columns - GUTTER, rows);
    rows_write(&picture);
    axis_write(&picture);
    if (options->legend) {
        marks_write(&picture, view);
        legend_write(&picture, view);
    }
}
