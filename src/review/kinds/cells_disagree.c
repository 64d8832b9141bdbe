/*
 * Reviewer: the oxygen cells of a loop were apart.
 * Must not decide which was right; it names the odd one, and one that did not move.
 * SPDX-License-Identifier: MIT
 */
#include "review/scene/cells.h"
#include "review/scene/measured.h"
#include "review/scene/stretch.h"
#include "review/kinds/reviewers.h"

#include <math.h>

static double excess(const struct plm_review_scene *scene, size_t point)
{
    double over_bar = plmi_review_cells_spread_bar(scene, point) - scene->rules->cells_apart_bar;
    return over_bar > 1e-6 ? over_bar : 0;
}

/* All that one cell did; of index 0, what nothing tells the cell of. */
struct trouble {
    struct plmi_review_still still;
    int cell, times; /* stretches for which the cells were apart */
    size_t first, last, worst;
    double held_s;
};

static double away_bar(const struct plm_review_scene *scene, size_t point, int cell)
{
    return fabs(scene->samples[point].cell_bar[cell - 1] - plmi_review_others_bar(scene, point, cell));
}

/* What one cell is looked at for; the context of the scene. */
struct suspect {
    const struct trouble *troubles;
    int cell;
};

/* The cell that a point is laid to: one that stood still then and is furthest off, else the odd one; 0 nobody knows. */
static int cell_at(const struct trouble troubles[PLM_CELLS + 1], const struct plm_review_scene *scene, size_t point)
{
    int found = 0;
    double furthest_bar = -1;
    for (int cell = 1; cell <= PLM_CELLS; cell++) {
        const struct plmi_review_still *still = &troubles[cell].still;
        if (still->found && still->first <= point && point <= still->last &&
            away_bar(scene, point, cell) > furthest_bar) {
            furthest_bar = away_bar(scene, point, cell);
            found = cell;
        }
    }
    return found > 0 ? found : plmi_review_odd_cell(scene, point);
}

static double excess_of_suspect(const struct plm_review_scene *scene, size_t point)
{
    const struct suspect *suspect = scene->context;
    double over_bar = excess(scene, point);
    return over_bar > 0 && cell_at(suspect->troubles, scene, point) == suspect->cell ? over_bar : 0;
}

static void stretch_add(struct trouble *trouble, const struct plm_review_scene *scene,
                        const struct plmi_review_stretch *stretch)
{
    if (trouble->times == 0) {
        trouble->first = stretch->first;
        trouble->worst = stretch->worst;
    }
    if (plmi_review_cells_spread_bar(scene, stretch->worst) > plmi_review_cells_spread_bar(scene, trouble->worst)) {
        trouble->worst = stretch->worst;
    }
    trouble->last = stretch->last;
    trouble->held_s += stretch->held_s;
    trouble->times++;
}

/* A cell that stood still is told from then on, apart from the others or not. */
static void still_add(struct trouble *trouble, const struct plm_review_scene *scene)
{
    const struct plmi_review_still *still = &trouble->still;
    if (!still->found) {
        return;
    }
    for (size_t i = still->first; trouble->times == 0 && i <= still->last; i++) {
        double here_bar = away_bar(scene, i, trouble->cell), worst_bar = away_bar(scene, trouble->worst, trouble->cell);
        if (i == still->first || here_bar > worst_bar) {
            trouble->worst = i;
        }
    }
    trouble->first = trouble->times == 0 || still->first < trouble->first ? still->first : trouble->first;
    trouble->last = still->last > trouble->last ? still->last : trouble->last;
}

static const char *still_words(struct plm_finding_list *list, const struct plm_review_scene *scene,
                               const struct trouble *trouble)
{
    const struct plmi_review_still *still = &trouble->still;
    double from_s = plmi_review_time_s(scene, still->first), to_s = plmi_review_time_s(scene, still->last);
    if (still->limited) {
        return plm_finding_sentence(
            list,
            "Cell {i} gave no more than {2} bar {w}, while the others came to {2} bar: it may be "
            "at the most that it can give",
            trouble->cell, still->bar, from_s, to_s, still->others_high_bar);
    }
    return plm_finding_sentence(list,
                                "Cell {i} did not move {w}, at {2} bar, while the others moved from {2} to {2} bar",
                                trouble->cell, from_s, to_s, still->bar, still->others_low_bar, still->others_high_bar);
}

static const char *apart_words(struct plm_finding_list *list, const struct plm_review_scene *scene,
                               const struct plm_finding *finding, const struct trouble *trouble)
{
    double when_s = plmi_review_time_s(scene, trouble->worst);
    if (trouble->cell == 0) {
        return plm_finding_sentence(
            list, "Two cells were apart {w}, {d} in all, by {2} bar at {t}: nothing tells which was right.",
            finding->from_s, finding->to_s, trouble->held_s, finding->value, when_s);
    }
    return plm_finding_sentence(
        list, "Cell {i} was apart from the others {w}, {d} in all: {2} bar at {t}, where the others had {2} bar.",
        trouble->cell, finding->from_s, finding->to_s, trouble->held_s,
        scene->samples[trouble->worst].cell_bar[trouble->cell - 1], when_s,
        plmi_review_others_bar(scene, trouble->worst, trouble->cell));
}

static void tell(const struct plm_review_scene *scene, struct plm_finding_list *list, const struct trouble *trouble)
{
    struct plm_finding *finding = plm_finding_add(list, scene, trouble->first, trouble->last);
    if (finding == NULL) {
        return;
    }
    bool apart = trouble->times > 0;
    finding->severity = apart ? PLM_SEVERITY_CAUTION : PLM_SEVERITY_NOTE;
    finding->value = plmi_review_cells_spread_bar(scene, trouble->worst);
    finding->limit = apart ? scene->rules->cells_apart_bar : (double)NAN;
    if (!trouble->still.found) {
        finding->text = apart_words(list, scene, finding, trouble);
    } else if (apart) {
        finding->text = plm_finding_sentence(list, "{s}; the cells were apart for {d} in all, by {2} bar at {t}.",
                                             still_words(list, scene, trouble), trouble->held_s, finding->value,
                                             plmi_review_time_s(scene, trouble->worst));
    } else {
        finding->text = plm_finding_sentence(list, "{s}.", still_words(list, scene, trouble));
    }
}

static void look(const struct plm_review_scene *scene, struct plm_finding_list *list)
{
    struct trouble troubles[PLM_CELLS + 1];
    struct plmi_review_stretch stretch;
    for (int cell = 0; cell <= PLM_CELLS; cell++) {
        troubles[cell] = (struct trouble){.cell = cell};
        if (cell > 0) {
            troubles[cell].still = plmi_review_still_find(scene, cell);
        }
    }
    for (int cell = 0; cell <= PLM_CELLS; cell++) {
        struct suspect suspect = {troubles, cell};
        struct plm_review_scene scene_of_suspect = *scene;
        scene_of_suspect.context = &suspect;
        for (size_t at = 0; plmi_review_stretch_next(&scene_of_suspect, excess_of_suspect, &at, &stretch);) {
            if (stretch.held_s > scene->rules->cells_apart_s) {
                stretch_add(&troubles[cell], scene, &stretch);
            }
        }
    }
    for (int cell = 0; cell <= PLM_CELLS; cell++) {
        still_add(&troubles[cell], scene);
        if (troubles[cell].times > 0 || troubles[cell].still.found) {
            tell(scene, list, &troubles[cell]);
        }
    }
}

static const struct plm_explanation explanation = {
    .what =
        "The oxygen cells read so far apart that the oxygen in the loop was not surely known, or one of them did "
        "not move with the others: stuck, or at the most that it can give. The replay takes the median of the living "
        "cells, which one cell of three cannot carry off; the report tells the surfacing gradient, the oxygen clock "
        "and the stops required by each cell alone.",
    .reached =
        "A caution when the highest and the lowest cell are more than cells_apart_bar (0.2 bar) apart for "
        "longer than cells_apart_s (1 min). A note for a cell that only did not move. One finding for each cell.",
    .formula =
        "Highest less lowest known cell at each sample on the loop; the cell named is the one furthest from the "
        "median of the others. A cell did not move when it stayed within 0.05 bar for 3 min or more while all "
        "others moved by 0.2 bar or more, or one other and the set point after the first minute; the last minute is "
        "not counted for them.",
    .source = "Convention of this program.",
    .ask = "Age of each cell, moisture, calibration? Was the loop flushed with diluent to check? Two cells can agree "
           "and both be wrong."};

const struct plm_reviewer plmi_review_cells_disagree = {.kind = "cells-disagree",
                                                        .unit = "bar",
                                                        .meaning = "oxygen cells apart",
                                                        .look = look,
                                                        .explanation = &explanation};
