/*
 * A reconciliation as text for people and as JSON. Says what the reconciliation holds, nothing more.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <string.h>

#include <plimsoll/version.h>

#include "report/team/reconcile.h"

#include "base/clock.h"
#include "base/number.h"
#include "report/view/view.h"
#include "report/output/whole.h"
#include "syntax/json.h"

static void signed_number(struct plmi_text *out, double value, int digits, const char *unit)
{
    plmi_view_change_write(out, value, digits);
    plmi_text_puts(out, unit);
}

static void signed_duration(struct plmi_text *out, double seconds)
{
    plmi_text_puts(out, seconds < 0 ? "-" : "+");
    plmi_view_duration_write(out, fabs(seconds));
}

static void write_records(struct plmi_page *page, const struct plm_report_reconciled *what, struct plmi_text *text)
{
    for (size_t i = 0; i < what->count; i++) {
        const struct plm_dive_info *info = plm_dive_info_get(what->records[i]->dive);
        char label[32] = "Record 1";
        plmi_text_printf(text, "%s, dive %d", info->file != NULL ? info->file : "-", info->index);
        if (info->recorder != NULL) {
            plmi_text_printf(text, ", %s", info->recorder);
        }
        if (info->start.known) {
            plmi_text_puts(text, ", ");
            plmi_clock_write(text, &info->start);
        }
        label[7] = (char)('1' + (i < 9 ? i : 8));
        plmi_page_made_row(page, label, text);
    }
}

static void write_alignment(struct plmi_page *page, const struct plm_reconciled_pair *pair, struct plmi_text *text)
{
    const struct plm_alignment *found = &pair->alignment;
    plmi_text_puts(text, found->clock_known ? "" : "of its own runtime ");
    signed_duration(text, found->clock_offset_s);
    plmi_text_puts(text, " to be added; drifts by ");
    signed_number(text, found->clock_drift_ppm, 0, " ppm");
    plmi_page_made_row(page, "Clock", text);
    plmi_text_puts(text, "times ");
    plmi_number_fixed(text, found->depth_scale, 4);
    plmi_text_puts(text, ", then ");
    signed_number(text, found->depth_offset_m, 2, " m");
    plmi_page_made_row(page, "Depth", text);
    plmi_text_puts(text, "half of the samples within ");
    plmi_view_number_write(text, found->apart_median_m, 2, "m");
    plmi_text_puts(text, ", nine tenths within ");
    plmi_view_number_write(text, found->apart_p90_m, 2, "m");
    plmi_text_puts(text, ", over ");
    plmi_view_duration_write(text, found->overlap_s);
    plmi_page_made_row(page, "Then apart", text);
}

static void write_difference(struct plmi_page *page, const struct plm_difference *difference, struct plmi_text *text)
{
    plmi_text_printf(text, "%s: %s.", plm_severity_text(difference->severity), difference->text);
    plmi_page_made_row(page, plm_difference_kind_text(difference->kind), text);
}

static void write_pair(struct plmi_page *page, const struct plm_reconciled_pair *pair, struct plmi_text *text)
{
    plmi_text_printf(text, "RECORD %zu LAID OVER RECORD %zu", pair->b + 1, pair->a + 1);
    plmi_page_heading(page, text->bytes != NULL ? text->bytes : "");
    plmi_text_clear(text);
    write_alignment(page, pair, text);
    if (!pair->alignment.same_dive) {
        return;
    }
    plmi_page_heading(page, "WHAT THEY TELL DIFFERENTLY");
    if (pair->count == 0) {
        plmi_text_puts(page->out, "  Nothing beyond what their sampling explains.\n");
    }
    for (size_t i = 0; i < pair->count; i++) {
        write_difference(page, &pair->differences[i], text);
    }
}

void plmi_reconciliation_text(struct plmi_text *out, const void *of, const struct plm_report_options *options)
{
    const struct plm_report_reconciled *what = of;
    struct plmi_page page = {.out = out, .colour = options->colour};
    struct plmi_text text;
    size_t count;
    const struct plm_reconciled_pair *pairs = plm_reconciliation_pairs(what->reconciliation, &count);
    plmi_text_init(&text);
    plmi_page_tone(&page, PLMI_PAGE_HEADING);
    plmi_page_wrap(&page, 0, 2, plm_reconciliation_verdict(what->reconciliation));
    plmi_page_tone(&page, PLMI_PAGE_PLAIN);
    write_records(&page, what, &text);
    for (size_t i = 0; i < count; i++) {
        write_pair(&page, &pairs[i], &text);
    }
    plmi_text_free(&text);
    plmi_whole_cautions(&page, plmi_standing_cautions, plmi_standing_caution_count);
}

static void json_difference(struct plmi_json *json, const struct plm_difference *difference)
{
    plmi_json_object_begin(json, NULL);
    plmi_json_text(json, "what", plm_difference_kind_text(difference->kind));
    plmi_json_text(json, "kind", plm_finding_kind_text(PLM_FINDING_RECORDERS_DISAGREE));
    plmi_json_text(json, "severity", plm_severity_text(difference->severity));
    plmi_json_fixed(json, "from_s", difference->from_s, 1);
    plmi_json_fixed(json, "to_s", difference->to_s, 1);
    plmi_json_text(json, "a", difference->a);
    plmi_json_text(json, "b", difference->b);
    plmi_json_fixed(json, "ceiling_m", difference->ceiling_m, 2);
    plmi_json_fixed(json, "decompression_min", difference->decompression_min, 1);
    plmi_json_text(json, "text", difference->text);
    plmi_json_object_end(json);
}

static void json_pair(struct plmi_json *json, const struct plm_reconciled_pair *pair)
{
    const struct plm_alignment *found = &pair->alignment;
    plmi_json_object_begin(json, NULL);
    plmi_json_integer(json, "a", (long long)pair->a + 1);
    plmi_json_integer(json, "b", (long long)pair->b + 1);
    plmi_json_bool(json, "same_dive", found->same_dive);
    plmi_json_fixed(json, "clock_offset_s", found->clock_offset_s, 2);
    plmi_json_bool(json, "clock_known", found->clock_known);
    plmi_json_fixed(json, "clock_drift_ppm", found->clock_drift_ppm, 1);
    plmi_json_fixed(json, "depth_offset_m", found->depth_offset_m, 3);
    plmi_json_fixed(json, "depth_scale", found->depth_scale, 5);
    plmi_json_fixed(json, "overlap_s", found->overlap_s, 0);
    plmi_json_fixed(json, "apart_median_m", found->apart_median_m, 3);
    plmi_json_fixed(json, "apart_p90_m", found->apart_p90_m, 3);
    plmi_json_fixed(json, "likeness", found->likeness, 3);
    plmi_json_fixed(json, "likeness_expected", found->likeness_expected, 3);
    plmi_json_array_begin(json, "differences");
    for (size_t i = 0; i < pair->count; i++) {
        json_difference(json, &pair->differences[i]);
    }
    plmi_json_array_end(json);
    plmi_json_object_end(json);
}

static void json_records(struct plmi_json *json, const struct plm_report_reconciled *what)
{
    plmi_json_array_begin(json, "records");
    for (size_t i = 0; i < what->count; i++) {
        const struct plm_dive_info *info = plm_dive_info_get(what->records[i]->dive);
        plmi_json_object_begin(json, NULL);
        plmi_json_text(json, "file", info->file);
        plmi_json_integer(json, "index", info->index);
        plmi_json_text(json, "recorder", info->recorder);
        plmi_json_object_end(json);
    }
    plmi_json_array_end(json);
}

void plmi_reconciliation_json(struct plmi_text *out, const void *of, const struct plm_report_options *options)
{
    const struct plm_report_reconciled *what = of;
    (void)options;
    struct plmi_json json;
    size_t count;
    const struct plm_reconciled_pair *pairs = plm_reconciliation_pairs(what->reconciliation, &count);
    plmi_json_init(&json, out, 2);
    plmi_json_object_begin(&json, NULL);
    plmi_json_integer(&json, "schema", 1);
    plmi_json_bool(&json, "same_dive", plm_reconciliation_same_dive(what->reconciliation));
    json_records(&json, what);
    plmi_json_array_begin(&json, "pairs");
    for (size_t i = 0; i < count; i++) {
        json_pair(&json, &pairs[i]);
    }
    plmi_json_array_end(&json);
    plmi_json_integer(&json, "more_complete", (long long)plm_reconciliation_best(what->reconciliation) + 1);
    plmi_json_text(&json, "verdict", plm_reconciliation_verdict(what->reconciliation));
    plmi_json_texts(&json, "cautions", plmi_standing_cautions, plmi_standing_caution_count);
    plmi_json_object_end(&json);
    plmi_text_puts(out, "\n");
}
