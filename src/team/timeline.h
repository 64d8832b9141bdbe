/*
 * What a record says was breathed, as stretches on another record's clock. Pure.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_TEAM_TIMELINE_H
#define PLM_TEAM_TIMELINE_H

#include <plimsoll/alignment.h>
#include <plimsoll/rules.h>

/* From this moment on (until the next) this is in force. */
struct plmi_breathed {
    double time_s;
    enum plm_mode mode;
    struct plm_mix mix;
    double setpoint_bar;
};

struct plmi_timeline {
    size_t count;
    struct plmi_breathed *stretches;
    double end_s;
};

/* The record's settings on the clock of its own, or of the record it was laid over where alignment is given.
 * Returns: false without memory. */
bool plmi_timeline_init(struct plmi_timeline *timeline, const struct plm_dive *dive,
                        const struct plm_alignment *alignment);
void plmi_timeline_free(struct plmi_timeline *timeline);
/* In force at a moment; the first before the record begins. Never NULL: a dive has settings. */
const struct plmi_breathed *plmi_timeline_at(const struct plmi_timeline *timeline, double time_s);

/*
 * A copy of dive a in which, from from_s until to_s, what b says was breathed is in force (moments of change that
 * fall between samples get a sample of their own on the line between them).
 * Returns: OK and *out, or MEMORY, INPUT reported.
 */
enum plm_status plmi_version_make(struct plm_dive **out, const struct plm_dive *a, const struct plmi_timeline *b,
                                  double from_s, double to_s, const struct plm_rules *rules,
                                  const struct plm_diag_sink *sink);

#endif
