/*
 * From a debriefed dive to the row that an audit keeps.
 * SPDX-License-Identifier: MIT
 */
#include "team/audited.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/clock.h"
#include "base/text.h"

#define MS_A_DAY 86400000

static const char *kept(struct plmi_audited_file *file, const char *text)
{
    const char *copy = text != NULL ? plmi_arena_text(&file->arena, text, strlen(text)) : NULL;
    file->no_memory = file->no_memory || (text != NULL && copy == NULL);
    return copy;
}

static int64_t day_of(int64_t local_ms)
{
    int64_t day = local_ms / MS_A_DAY;
    return local_ms % MS_A_DAY < 0 ? day - 1 : day;
}

static void write_date(char date[11], const struct plm_stamp *start)
{
    int year, month, day;
    struct plmi_text text;
    date[0] = '\0';
    if (!start->known) {
        return;
    }
    plmi_clock_date(day_of(start->local_ms), &year, &month, &day);
    plmi_text_init(&text);
    plmi_text_printf(&text, "%04d-%02d-%02d", year, month, day);
    if (text.count == 10) {
        memcpy(date, text.bytes, 11);
    }
    plmi_text_free(&text);
}

static void take_info(struct plmi_audited_file *file, struct plm_audit_row *row, const struct plm_dive_info *info)
{
    row->file = file->path;
    memcpy(row->sha256, info->sha256, sizeof row->sha256);
    row->index = info->index;
    row->diver = kept(file, info->diver);
    row->recorder = kept(file, info->recorder);
    row->site = kept(file, info->site);
    row->start = info->start;
    write_date(row->date, &info->start);
}

static void take_figures(struct plm_audit_row *row, const struct plm_debriefed *debriefed)
{
    const struct plm_trace_summary *summary = plm_trace_summary_get(debriefed->trace);
    const struct plm_decompression *decompression = debriefed->decompression;
    row->gf_low_pct = debriefed->rules.gf_low_pct;
    row->gf_high_pct = debriefed->rules.gf_high_pct;
    row->factors_from = debriefed->factors_from;
    row->duration_s = summary->duration_s;
    row->max_depth_m = summary->max_depth_m;
    row->surfacing_gradient_pct = summary->surfacing_gradient_pct;
    row->peak_gradient_pct = summary->peak_gradient_pct;
    row->cns_pct = summary->cns_pct;
    row->cns_day_pct = summary->cns_day_pct;
    row->cns_beyond_min = debriefed->start.cns_beyond_min + summary->cns_beyond_min;
    row->otu = summary->otu;
    row->esot = summary->esot;
    row->owed_min = decompression != NULL ? decompression->owed_s / 60.0 : (double)NAN;
    row->done_min = decompression != NULL ? decompression->done_s / 60.0 : (double)NAN;
}

static void take_findings(struct plmi_audited_file *file, struct plm_audit_row *row,
                          const struct plm_findings *findings)
{
    size_t count;
    const struct plm_finding *all = plm_findings_get(findings, &count);
    size_t *const counts[] = {&row->note, &row->caution, &row->serious};
    for (size_t i = 0; i < count; i++) {
        (*counts[all[i].severity])++;
    }
    row->has_worst = count > 0;
    if (count == 0) {
        return;
    }
    row->worst = all[0];
    row->worst.text = kept(file, all[0].text);
    row->worst.cost.put_right = kept(file, all[0].cost.put_right);
}

/* The deepest depth and ceiling in each piece of the duration; a piece without a sample lies on the line between its
 * neighbours'. */
static void take_picture(struct plm_audit_row *row, const struct plm_trace *trace)
{
    size_t count, i = 0;
    const struct plm_point *points = plm_trace_points(trace, &count);
    double end_ms = (double)points[count - 1].time_ms;
    for (size_t piece = 0; piece < PLM_PICTURE; piece++) {
        double from_ms = end_ms * (double)piece / PLM_PICTURE, to_ms = end_ms * (double)(piece + 1) / PLM_PICTURE;
        while (i + 1 < count && (double)points[i + 1].time_ms <= from_ms) {
            i++;
        }
        size_t next = i + 1 < count ? i + 1 : i;
        double dt_ms = (double)(points[next].time_ms - points[i].time_ms);
        double share = dt_ms > 0 ? (from_ms - (double)points[i].time_ms) / dt_ms : 0.0;
        double depth_m = points[i].depth_m + share * (points[next].depth_m - points[i].depth_m);
        double ceiling_m = points[i].ceiling_m + share * (points[next].ceiling_m - points[i].ceiling_m);
        for (size_t k = next; k < count && (double)points[k].time_ms < to_ms; k++) {
            depth_m = fmax(depth_m, points[k].depth_m);
            ceiling_m = fmax(ceiling_m, points[k].ceiling_m);
        }
        row->picture_depth_m[piece] = depth_m;
        row->picture_ceiling_m[piece] = ceiling_m;
    }
}

static double wet_s(const struct plmi_series *series)
{
    double sum = 0.0;
    for (size_t i = 1; i < series->count; i++) {
        if (series->depth_m[i] >= 1.0) {
            sum += series->time_s[i] - series->time_s[i - 1];
        }
    }
    return sum;
}

static void take_wet(struct plmi_audited_dive *audited, const struct plm_debriefed *debriefed)
{
    int64_t from_ms, to_ms;
    size_t count;
    const struct plm_sample *samples = plm_dive_samples(debriefed->dive, &count);
    plm_dive_wet(debriefed->dive, debriefed->replay.rules, &from_ms, &to_ms);
    audited->before_s = (double)from_ms / 1000.0;
    audited->after_s = (double)(samples[count - 1].time_ms - to_ms) / 1000.0;
}

struct plm_audit_row *plmi_audited_dive_add(struct plmi_audited_file *file, const struct plm_debriefed *debriefed)
{
    void *dives = file->dives;
    if (!plmi_array_grow(&dives, &file->capacity, file->count, sizeof *file->dives)) {
        file->no_memory = true;
        return NULL;
    }
    file->dives = dives;
    struct plmi_audited_dive *audited = &file->dives[file->count];
    memset(audited, 0, sizeof *audited);
    if (!plmi_series_init(&audited->series, debriefed->dive)) {
        plmi_series_free(&audited->series);
        file->no_memory = true;
        return NULL;
    }
    file->count++;
    audited->completeness = plmi_completeness_of(debriefed->dive, &audited->series);
    audited->wet_s = wet_s(&audited->series);
    take_wet(audited, debriefed);
    audited->row.other_record = -1;
    audited->row.clock_offset_s = (double)NAN;
    take_info(file, &audited->row, plm_dive_info_get(debriefed->dive));
    take_figures(&audited->row, debriefed);
    take_findings(file, &audited->row, debriefed->findings);
    take_picture(&audited->row, debriefed->trace);
    return file->no_memory ? NULL : &audited->row;
}

void plmi_audited_file_free(struct plmi_audited_file *file)
{
    for (size_t i = 0; i < file->count; i++) {
        plmi_series_free(&file->dives[i].series);
    }
    free(file->dives);
    plmi_arena_free(&file->arena);
    file->dives = NULL;
    file->count = 0;
}
