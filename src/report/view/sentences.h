/*
 * The figures of a dive shown in sentences, one table for every report that people read. Must not compute.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REPORT_VIEW_SENTENCES_H
#define PLM_REPORT_VIEW_SENTENCES_H

#include "report/view/view.h"

enum plmi_sentence_group {
    PLMI_SENTENCES_LOADING,
    PLMI_SENTENCES_DECOMPRESSION,
    PLMI_SENTENCES_OXYGEN,
    PLMI_SENTENCES_OXYGEN_ASIDE,
    PLMI_SENTENCES_GAS,
    PLMI_SENTENCES_ASSUMED,
    PLMI_SENTENCES_GROUPS
};

/* A labelled sentence that is shown where the item of `known` has a value that suits. ABOVE_ZERO: one that does not
 * read as 0. */
enum plmi_sentence_when {
    PLMI_WHEN_KNOWN,
    PLMI_WHEN_ABOVE_ZERO,
    PLMI_WHEN_ZERO,
    PLMI_WHEN_POSITIVE,
    PLMI_WHEN_NEGATIVE
};
struct plmi_sentence {
    const char *label, *known, *sentence;
    enum plmi_sentence_when when;
};

/* All sentences of a group, in their order. */
const struct plmi_sentence *plmi_sentences(enum plmi_sentence_group group, size_t *count);
bool plmi_sentence_shown(const struct plmi_view *view, const struct plmi_sentence *sentence);

#endif
