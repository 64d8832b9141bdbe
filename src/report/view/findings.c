/*
 * The view's findings: how many of each severity, the headline, and the list with its words.
 * Must not change the order or the severity of anything.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "report/view/build.h"

static const char *const severity_words[][2] = {{"note", "notes"}, {"caution", "cautions"}, {"serious", "serious"}};

/* "1 serious, 2 cautions"; worst first, none left out that is there. */
static void headline_make(struct plmi_view *view, const size_t counts[3])
{
    struct plmi_text text;
    plmi_text_init(&text);
    for (int severity = PLM_SEVERITY_SERIOUS; severity >= PLM_SEVERITY_NOTE; severity--) {
        if (counts[severity] > 0) {
            plmi_text_printf(&text, "%s%zu %s", text.count > 0 ? ", " : "", counts[severity],
                             severity_words[severity][counts[severity] > 1]);
        }
    }
    if (text.count == 0) {
        plmi_text_puts(&text, "nothing was found beyond the rules in force");
    }
    view->headline = plmi_view_keep_text(view, &text);
}

static void counts_add(struct plmi_view *view, const size_t counts[3])
{
    const enum plmi_view_section section = PLMI_VIEW_COUNTS;
    plmi_view_add_number(view, section, "serious", "serious findings", (double)counts[PLM_SEVERITY_SERIOUS], 0, "");
    plmi_view_add_number(view, section, "caution", "cautions", (double)counts[PLM_SEVERITY_CAUTION], 0, "");
    plmi_view_add_number(view, section, "note", "notes", (double)counts[PLM_SEVERITY_NOTE], 0, "");
}

static void finding_add(struct plmi_view *view, const struct plm_finding *finding)
{
    struct plmi_view_finding *one = &view->findings[view->finding_count++];
    one->finding = finding;
    one->kind = finding->reviewer->kind;
    one->meaning = finding->reviewer->meaning;
    one->severity = plm_severity_text(finding->severity);
    one->hold = finding->hold == PLM_HOLD_UNTRIED ? NULL : plm_hold_text(finding->hold);
    one->digits = plmi_view_unit_digits(finding->unit);
    /* Anything at all is beyond a limit of 0: it tells nothing. */
    one->limit = fabs(finding->limit) > 0 ? finding->limit : (double)NAN;
    plmi_view_finding_words(view, one);
}

void plmi_view_add_findings(struct plmi_view *view, const struct plmi_view_from *from)
{
    const struct plm_findings *findings = from->debriefed->findings;
    size_t count = 0, counts[3] = {0, 0, 0};
    const struct plm_finding *list = findings != NULL ? plm_findings_get(findings, &count) : NULL;
    if (count > 0) {
        view->findings = plmi_view_room(view, count, sizeof *view->findings);
    }
    for (size_t i = 0; i < count && view->findings != NULL; i++) {
        counts[list[i].severity]++;
        finding_add(view, &list[i]);
    }
    counts_add(view, counts);
    headline_make(view, counts);
    const struct plm_cost *all = findings != NULL ? plm_findings_all_put_right(findings) : NULL;
    view->cost_known = all != NULL && all->known;
    if (view->cost_known) {
        view->all_put_right_words = plmi_view_cost_words(view, all);
    }
}
