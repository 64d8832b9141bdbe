/*
 * What the values of the columns look like: counts of forms, decimal points, ranges, steps.
 * Must not decide anything but the decimal point.
 * SPDX-License-Identifier: MIT
 */
#include "import/table/stats.h"

#include <math.h>
#include <string.h>

#define ROWS_WEIGHED 400

static size_t rows_end(const struct plmi_table_plan *plan)
{
    size_t most = plan->head.data + ROWS_WEIGHED;
    return plan->head.count < most ? plan->head.count : most;
}

/* Whether a number has a fraction, and behind which sign. */
static void count_point(struct plmi_column_stats *stats, const char *cell)
{
    const char *comma = strchr(cell, ',');
    const char *point = strchr(cell, '.');
    stats->commas += comma != NULL && point == NULL;
    stats->points += point != NULL && comma == NULL;
}

/* Majority vote over the steps; a step within 1 % of the candidate is a vote for it. */
struct step_vote {
    double candidate;
    size_t votes, agree, steps;
};

static void vote(struct step_vote *vote, double step)
{
    bool same = vote->votes > 0 && fabs(step - vote->candidate) <= 0.01 * fabs(vote->candidate);
    vote->steps++;
    vote->agree += same;
    if (vote->votes == 0) {
        vote->candidate = step;
    }
    vote->votes = same || vote->votes == 0 ? vote->votes + 1 : vote->votes - 1;
}

static void add_number(struct plmi_column_stats *stats, struct step_vote *steps, double value)
{
    if (stats->numbers == 0) {
        stats->first = stats->least = stats->most = value;
    } else {
        vote(steps, value - stats->last);
    }
    stats->last = value;
    stats->least = fmin(stats->least, value);
    stats->most = fmax(stats->most, value);
    stats->numbers++;
    stats->negatives += value < 0;
    stats->positives += value > 0;
}

static struct plmi_column_stats stats_of(const struct plmi_table_plan *plan, const struct plmi_column *column)
{
    struct plmi_column_stats stats = {0};
    struct step_vote steps = {0};
    stats.first = stats.last = stats.least = stats.most = stats.usual_step = (double)NAN;
    for (size_t i = plan->head.data; i < rows_end(plan); i++) {
        const char *cell = plmi_head_cell(&plan->head.rows[i], column->index);
        enum plmi_look look = plmi_cell_look(cell);
        double value;
        stats.looks[look]++;
        if (look == PLMI_LOOK_NUMBER) {
            count_point(&stats, cell);
            if (plmi_column_number(column, cell, strlen(cell), &value)) {
                add_number(&stats, &steps, value);
            }
        }
    }
    if (steps.steps > 0 && steps.agree * 2 >= steps.steps - 1) {
        stats.usual_step = steps.candidate;
    }
    return stats;
}

void plmi_plan_points(struct plmi_table_plan *plan)
{
    size_t points = 0;
    size_t commas = 0;
    for (size_t i = 0; i < plan->count; i++) {
        struct plmi_column *column = &plan->columns[i];
        column->stats = stats_of(plan, column);
        points += column->stats.points;
        commas += column->stats.commas;
    }
    for (size_t i = 0; i < plan->count; i++) {
        struct plmi_column *column = &plan->columns[i];
        bool shown = (column->stats.points == 0) != (column->stats.commas == 0);
        bool comma = shown ? column->stats.commas > 0 : commas > points;
        column->point_known = shown || points + commas > 0;
        if (comma) {
            column->point = ',';
            column->stats = stats_of(plan, column);
        }
    }
    plmi_plan_fact(
        plan, "Decimal sign",
        points + commas == 0 ? "none seen"
        : commas > points    ? "comma"
                             : "point",
        plmi_plan_text(plan, "%zu numbers with a point, %zu with a comma in the first rows", points, commas));
}
