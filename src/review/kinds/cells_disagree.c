/*
 * Reviewer: the oxygen cells of a loop were apart.
 * Must not decide which was right; it names the odd one.
 * SPDX-License-Identifier: MIT
 */
#include "review/scene/measured.h"
#include "review/kinds/reviewers.h"

#include <math.h>

static double excess(const struct plm_review_scene *scene, size_t point)
{
    double over_bar = plmi_review_cells_spread_bar(scene, point) - scene->rules->cells_apart_bar;
    return over_bar > 1e-6 ? over_bar : 0;
}

/* The cell furthest from the mean of all others, from 1. */
static int odd_cell(const double cells[PLM_CELLS])
{
    int odd = 0, known = 0;
    double sum = 0, furthest = -1;
    for (int i = 0; i < PLM_CELLS; i++) {
        if (!isnan(cells[i])) {
            sum += cells[i];
            known++;
        }
    }
    for (int i = 0; i < PLM_CELLS; i++) {
        double away = fabs(cells[i] - (sum - cells[i]) / (known - 1));
        if (away > furthest) {
            furthest = away;
            odd = i + 1;
        }
    }
    return odd;
}

static void tell(const struct plm_review_scene *scene, struct plm_finding_list *list, struct plm_finding *finding,
                 size_t worst)
{
    const double *cells = scene->samples[worst].cell_bar;
    int known = 0;
    for (int i = 0; i < PLM_CELLS; i++) {
        known += !isnan(cells[i]);
    }
    double when_s = plmi_review_time_s(scene, worst);
    if (known == 2) {
        finding->text =
            plm_finding_sentence(list, "Two cells were apart {w}, by {2} bar at {t}: nothing tells which was right.",
                                 finding->from_s, finding->to_s, finding->value, when_s);
        return;
    }
    int odd = odd_cell(cells);
    finding->text = plm_finding_sentence(
        list, "The cells were apart {w}, by {2} bar at {t}: cell {i} stood furthest off, at {2} bar.", finding->from_s,
        finding->to_s, finding->value, when_s, odd, cells[odd - 1]);
}

static void finding_tell(const struct plm_review_scene *scene, struct plm_finding_list *list,
                         const struct plmi_review_stretch *stretch, struct plm_finding *finding)
{
    finding->severity = PLM_SEVERITY_CAUTION;
    finding->value = plmi_review_cells_spread_bar(scene, stretch->worst);
    finding->limit = scene->rules->cells_apart_bar;
    tell(scene, list, finding, stretch->worst);
}

static void look(const struct plm_review_scene *scene, struct plm_finding_list *list)
{
    plmi_review_stretches_tell(scene, list, excess, scene->rules->cells_apart_s, finding_tell);
}

static const struct plm_explanation explanation = {
    .what = "The oxygen cells read so far apart that the oxygen in the loop was not surely known. The replay takes the "
            "vote of those within "
            "cell_vote_bar of the median.",
    .reached = "A caution when the highest and the lowest cell are more than cells_apart_bar (0.2 bar) apart for "
               "longer than cells_apart_s (1 min).",
    .formula = "Highest less lowest known cell at each sample on the loop.",
    .source = "Convention of this program.",
    .ask = "Age of each cell, moisture, calibration? Was the loop flushed with diluent to check? Two cells can agree "
           "and both be wrong."};

const struct plm_reviewer plmi_review_cells_disagree = {.kind = "cells-disagree",
                                                        .unit = "bar",
                                                        .meaning = "oxygen cells apart",
                                                        .look = look,
                                                        .explanation = &explanation};
