/*
 * The view's figures by each oxygen cell alone, beside those that the dive was judged by.
 * Must not replay.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "report/view/build.h"

static const char *name_make(struct plmi_view *view, const struct plm_cell_figures *figures)
{
    struct plmi_text text;
    plmi_text_init(&text);
    plmi_text_printf(&text, "cell %d%s", figures->cell, figures->still ? ", which did not move" : "");
    return plmi_view_keep_text(view, &text);
}

/* What the dive was judged by comes first. */
static struct plmi_view_cell judged(const struct plmi_view_from *from)
{
    const struct plm_decompression *decompression = from->debriefed->decompression;
    double beyond_min = from->debriefed->start.cns_beyond_min + from->summary->cns_beyond_min;
    return (struct plmi_view_cell){.name = "as judged",
                                   .surfacing_gradient_pct = from->summary->surfacing_gradient_pct,
                                   .cns_pct = from->summary->cns_pct,
                                   .cns_at_least = beyond_min > 0,
                                   .owed_min = decompression != NULL ? decompression->owed_s / 60 : (double)NAN};
}

void plmi_view_add_each_cell(struct plmi_view *view, const struct plmi_view_from *from)
{
    const struct plm_findings *findings = from->debriefed->findings;
    size_t count = 0;
    const struct plm_cell_figures *list = findings != NULL ? plm_findings_cells(findings, &count) : NULL;
    if (count == 0) {
        return;
    }
    view->cells[view->cell_count++] = judged(from);
    for (size_t i = 0; i < count; i++) {
        double beyond_min = from->debriefed->start.cns_beyond_min + list[i].cns_beyond_min;
        view->cells[view->cell_count++] =
            (struct plmi_view_cell){.name = name_make(view, &list[i]),
                                    .cell = list[i].cell,
                                    .still = list[i].still,
                                    .surfacing_gradient_pct = list[i].surfacing_gradient_pct,
                                    .cns_pct = list[i].cns_pct,
                                    .cns_at_least = beyond_min > 0,
                                    .owed_min = list[i].owed_min};
    }
}

const char plmi_view_cells_words[] =
    "The cells of the loop disagreed. What the dive comes to by each of them alone, without the others:";
