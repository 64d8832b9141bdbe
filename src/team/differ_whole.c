/*
 * What two records tell differently about the dive as a whole: surface pressure, clock, diver.
 * SPDX-License-Identifier: MIT
 */
#include "team/differences.h"

#include <math.h>

#include <plimsoll/names.h>

#include "base/clock.h"
#include "base/number.h"

/* Told when further apart than this: 5 hPa is some 5 cm of water; clocks of one diver are set by hand. */
#define SURFACE_BAR 0.005
#define CLOCK_S     60.0
#define DRIFT_PPM   100.0

static bool add(struct plmi_difference_list *list, enum plm_difference_kind kind, struct plmi_text *a,
                struct plmi_text *b, struct plmi_text *sentence)
{
    struct plm_difference *difference = plmi_difference_add(list, kind, (double)NAN, (double)NAN);
    return difference != NULL && plmi_difference_say(list, difference, a, b, sentence);
}

enum plm_status plmi_differ_surface(const struct plmi_comparison *c, struct plmi_difference_list *list)
{
    double a_bar = plm_dive_info_get(c->a->dive)->surface_bar, b_bar = plm_dive_info_get(c->b->dive)->surface_bar;
    struct plmi_text a, b, sentence;
    if (!(fabs(a_bar - b_bar) > SURFACE_BAR)) {
        return PLM_STATUS_OK;
    }
    plmi_text_init(&a);
    plmi_text_init(&b);
    plmi_text_init(&sentence);
    plmi_number_fixed(&a, a_bar, 3);
    plmi_text_puts(&a, " bar");
    plmi_number_fixed(&b, b_bar, 3);
    plmi_text_puts(&b, " bar");
    plmi_text_printf(&sentence, "surface pressure %s on %s, %s on %s", a.bytes != NULL ? a.bytes : "", c->name_a,
                     b.bytes != NULL ? b.bytes : "", c->name_b);
    return add(list, PLM_DIFFERENCE_SURFACE, &a, &b, &sentence) ? PLM_STATUS_OK : PLM_STATUS_MEMORY;
}

enum plm_status plmi_differ_clock(const struct plmi_comparison *c, struct plmi_difference_list *list)
{
    const struct plm_alignment *alignment = c->alignment;
    struct plmi_text a, b, sentence;
    bool late = alignment->clock_known && fabs(alignment->clock_offset_s) > CLOCK_S;
    bool drifts = fabs(alignment->clock_drift_ppm) > DRIFT_PPM;
    if (!late && !drifts) {
        return PLM_STATUS_OK;
    }
    plmi_text_init(&a);
    plmi_text_init(&b);
    plmi_text_init(&sentence);
    plmi_clock_write(&a, &plm_dive_info_get(c->a->dive)->start);
    plmi_clock_write(&b, &plm_dive_info_get(c->b->dive)->start);
    plmi_text_printf(&sentence, "the clock of %s is ", c->name_b);
    if (late) {
        plmi_clock_duration(&sentence, fabs(alignment->clock_offset_s));
        plmi_text_printf(&sentence, " %s that of %s", alignment->clock_offset_s > 0 ? "behind" : "ahead of", c->name_a);
    }
    if (drifts) {
        plmi_text_puts(&sentence, late ? " and runs " : "running ");
        plmi_number_fixed(&sentence, fabs(alignment->clock_drift_ppm), 0);
        plmi_text_puts(&sentence, alignment->clock_drift_ppm > 0 ? " ppm slow" : " ppm fast");
    }
    return add(list, PLM_DIFFERENCE_CLOCK, &a, &b, &sentence) ? PLM_STATUS_OK : PLM_STATUS_MEMORY;
}

enum plm_status plmi_differ_diver(const struct plmi_comparison *c, struct plmi_difference_list *list)
{
    const char *diver_a = plm_dive_info_get(c->a->dive)->diver, *diver_b = plm_dive_info_get(c->b->dive)->diver;
    struct plmi_text a, b, sentence;
    if (diver_a == NULL || diver_b == NULL || plm_name_same(diver_a, diver_b)) {
        return PLM_STATUS_OK;
    }
    plmi_text_init(&a);
    plmi_text_init(&b);
    plmi_text_init(&sentence);
    plmi_text_puts(&a, diver_a);
    plmi_text_puts(&b, diver_b);
    plmi_text_printf(&sentence, "%s names %s as the diver, %s names %s", c->name_a, diver_a, c->name_b, diver_b);
    return add(list, PLM_DIFFERENCE_DIVER, &a, &b, &sentence) ? PLM_STATUS_OK : PLM_STATUS_MEMORY;
}
