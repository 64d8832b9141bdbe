/*
 * What every report warns of, and what this dive's log left to assumptions. Must not be left out of any report.
 * SPDX-License-Identifier: MIT
 */
#include "report/view/build.h"
#include "report/output/whole.h"

const char *const plmi_standing_cautions[] = {
    "This is a model of average tissue, not of a person. It is no proof that a dive was safe, and it is not for "
    "planning dives.",
    "With any symptom after a dive call the emergency services and a diving doctor at once; a report must not delay "
    "that.",
    "Local rules and the word of the dive's supervisor come before anything said here.",
};

#define STANDING_COUNT (sizeof plmi_standing_cautions / sizeof plmi_standing_cautions[0])
const size_t plmi_standing_caution_count = STANDING_COUNT;
#define CAUTIONS_MAX (STANDING_COUNT + 4)

static void caution_add(struct plmi_view *view, const char *text)
{
    view->cautions[view->caution_count++] = text;
}

void plmi_view_add_cautions(struct plmi_view *view, const struct plmi_view_from *from)
{
    view->cautions = plmi_view_room(view, CAUTIONS_MAX, sizeof *view->cautions);
    if (view->cautions == NULL) {
        return;
    }
    if (from->assumed->gas_assumed) {
        caution_add(view, "The log names no breathing gas: air was taken, and every figure stands on that.");
    }
    if (from->assumed->semiclosed_assumed) {
        caution_add(view,
                    "Semi-closed without a measured oxygen pressure: the supply mix was taken as if on open circuit; "
                    "the loop held less oxygen and more inert gas than that.");
    }
    if (from->assumed->oxygen_alone) {
        caution_add(view, "A loop with a diluent of pure oxygen was taken to hold oxygen alone; its set point and its "
                          "measured oxygen pressure were left aside.");
    }
    if (from->debriefed->decompression != NULL && from->debriefed->decompression->tts_s > 1e9) {
        caution_add(view, "By the schedule a stop never clears on the mixes known; what was owed cannot be told.");
    }
    for (size_t i = 0; i < STANDING_COUNT; i++) {
        caution_add(view, plmi_standing_cautions[i]);
    }
}
