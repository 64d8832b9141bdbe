/*
 * The view's source, dive and profile. Must not hold anything about the model.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "base/clock.h"
#include "report/view/build.h"

static void dive_add(struct plmi_view *view, const struct plm_dive_info *info)
{
    struct plmi_text start;
    plmi_text_init(&start);
    plmi_clock_write(&start, &info->start);
    plmi_view_add_number(view, PLMI_VIEW_DIVE, "index", "number in its log", info->index, 0, "");
    plmi_view_add_text(view, PLMI_VIEW_DIVE, "start", "began", info->start.known ? start.bytes : NULL);
    plmi_view_add_text(view, PLMI_VIEW_DIVE, "diver", "diver", info->diver);
    plmi_view_add_text(view, PLMI_VIEW_DIVE, "recorder", "recorder", info->recorder);
    plmi_view_add_text(view, PLMI_VIEW_DIVE, "site", "site", info->site);
    plmi_view_add_text(view, PLMI_VIEW_DIVE, "number", "the diver's count", info->number);
    if (start.failed) {
        view->failed = true;
    }
    plmi_text_free(&start);
}

/* "0.0 m at 12:30 (line 77), ..., and 3 more": odd samples of one sort; NULL where there is none. */
static const char *odd_words(struct plmi_view *view, const struct plm_dive_info *info, bool dropped)
{
    size_t all = dropped ? info->odd_dropped : info->odd_count - info->odd_dropped, told = 0;
    struct plmi_text text;
    plmi_text_init(&text);
    for (size_t i = 0; i < info->odd_count && i < PLM_ODD_SAMPLES; i++) {
        const struct plm_odd_sample *odd = &info->odd[i];
        if (odd->dropped == dropped) {
            plmi_text_puts(&text, told++ > 0 ? ", " : "");
            plmi_view_number_write(&text, odd->depth_m, 1, "m");
            plmi_text_puts(&text, " at ");
            plmi_view_duration_write(&text, (double)odd->time_ms / 1000.0);
            plmi_text_printf(&text, " (line %lu)", (unsigned long)odd->line);
        }
    }
    if (all > told) {
        plmi_text_printf(&text, told > 0 ? ", and %zu more" : "%zu, each told where it was read", all - told);
    }
    return all > 0 ? plmi_view_keep_text(view, &text) : NULL;
}

static void odd_add(struct plmi_view *view, const struct plm_dive_info *info)
{
    plmi_view_add_number(view, PLMI_VIEW_PROFILE, "samples_dropped", "samples dropped for their depth",
                         (double)info->odd_dropped, 0, "");
    plmi_view_add_text(view, PLMI_VIEW_PROFILE, "samples_dropped_are", "they are", odd_words(view, info, true));
    plmi_view_add_number(view, PLMI_VIEW_PROFILE, "samples_doubtful",
                         "samples doubtful for their depth, taken as recorded",
                         (double)(info->odd_count - info->odd_dropped), 0, "");
    plmi_view_add_text(view, PLMI_VIEW_PROFILE, "samples_doubtful_are", "they are", odd_words(view, info, false));
}

/* The last way to the surface as it was swum. */
static void last_ascent_add(struct plmi_view *view, const struct plm_trace_summary *summary)
{
    static const struct {
        const char *key, *label;
    } rows[PLM_LAST_ASCENTS] = {{"from_10_m_s", "from 10 m to the surface"},
                                {"from_6_m_s", "from 6 m to the surface"},
                                {"from_3_m_s", "from 3 m to the surface"}};
    for (int i = 0; i < PLM_LAST_ASCENTS; i++) {
        plmi_view_add_duration(view, PLMI_VIEW_PROFILE, rows[i].key, rows[i].label, summary->last_ascent_s[i]);
    }
    plmi_view_add_number(view, PLMI_VIEW_PROFILE, "fastest_step_m_min", "fastest ascent between two samples",
                         summary->fastest_step_m_min, 1, "m/min");
    plmi_view_add_duration(view, PLMI_VIEW_PROFILE, "fastest_step_at_s", "ending at", summary->fastest_step_at_s);
}

void plmi_view_add_source(struct plmi_view *view, const struct plmi_view_from *from)
{
    const struct plm_trace_summary *summary = from->summary;
    const char *sha256 = from->debriefed->sha256;
    size_t samples;
    const struct plm_sample *recorded = plm_dive_samples(from->debriefed->dive, &samples);
    plmi_view_add_text(view, PLMI_VIEW_SOURCE, "file", "log", from->info->file);
    plmi_view_add_number(view, PLMI_VIEW_SOURCE, "line", "line", from->info->line > 0 ? from->info->line : (double)NAN,
                         0, "");
    plmi_view_add_text(view, PLMI_VIEW_SOURCE, "sha256", "SHA-256", sha256[0] != '\0' ? sha256 : NULL);
    plmi_view_add_text(view, PLMI_VIEW_SOURCE, "format", "format", from->info->format);
    dive_add(view, from->info);
    plmi_view_add_duration(view, PLMI_VIEW_PROFILE, "duration_s", "recorded", summary->duration_s);
    plmi_view_add_number(view, PLMI_VIEW_PROFILE, "max_depth_m", "greatest depth", summary->max_depth_m, 1, "m");
    plmi_view_add_duration(view, PLMI_VIEW_PROFILE, "max_depth_at_s", "reached at", summary->max_depth_at_s);
    plmi_view_add_number(view, PLMI_VIEW_PROFILE, "mean_depth_m", "mean depth", summary->mean_depth_m, 1, "m");
    plmi_view_add_number(view, PLMI_VIEW_PROFILE, "ends_in_water_m", "the record ends in the water at",
                         summary->ends_in_water ? recorded[samples - 1].depth_m : (double)NAN, 1, "m");
    plmi_view_add_number(view, PLMI_VIEW_PROFILE, "samples", "samples", (double)samples, 0, "");
    plmi_view_add_number(view, PLMI_VIEW_PROFILE, "change_m", "the recorder seems to write changes alone, from",
                         from->info->change_m, 2, "m");
    odd_add(view, from->info);
    last_ascent_add(view, summary);
}
