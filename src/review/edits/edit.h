/*
 * A recording being edited: its samples, each knowing the recorded sample that it came from.
 * Must not judge; what is put right and how stands in the editors.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REVIEW_EDITS_EDIT_H
#define PLM_REVIEW_EDITS_EDIT_H

#include "review/scene/list.h"
#include "review/scene/scene.h"

struct plmi_review_edit_sample {
    struct plm_sample sample;
    size_t origin;
};

/* [samples] that one review may replay of edited dives: some seconds of work. What is left costs nothing then, and says
 * nothing. */
#define PLMI_REVIEW_BUDGET 5000000u

/* An edited dive and its replay, as the recording was replayed. */
struct plmi_review_retried {
    struct plm_dive *dive;
    struct plm_trace *trace;
    struct plm_review_input input;
};

/* What a review has for its edits: samples that may still be replayed, and a trace of no more use or NULL. */
struct plmi_review_means {
    size_t samples;
    struct plm_trace *spare;
};

/* input and original are the recording's, borrowed. items[count] in the order of time, origins never falling. */
struct plmi_review_edit {
    const struct plm_review_input *input;
    const struct plm_review_scene *original;
    struct plmi_review_edit_sample *items;
    size_t count, capacity;
    struct plmi_review_means *means;    /* borrowed */
    struct plmi_review_retried retried; /* the last retry; dive NULL: none */
    bool all;                           /* other stretches of the kind are put right as well */
};

/* A copy of the recording. Returns: OK or MEMORY. */
enum plm_status plmi_review_edit_init(struct plmi_review_edit *edit, const struct plm_review_scene *original,
                                      struct plmi_review_means *means);
void plmi_review_edit_free(struct plmi_review_edit *edit);

/* The first item that came from this recorded sample or a later one; count where none did. */
size_t plmi_review_edit_find(const struct plmi_review_edit *edit, size_t origin);
/* [s] runtime and its setting; items from `first` on are moved. */
double plmi_review_edit_time_s(const struct plmi_review_edit *edit, size_t item);
void plmi_review_edit_delay(struct plmi_review_edit *edit, size_t first, int64_t by_ms);
/* Puts a copy of items[at - 1] in before items[at], at another time and depth; at > 0. Measurements are kept. */
enum plm_status plmi_review_edit_insert(struct plmi_review_edit *edit, size_t at, int64_t time_ms, double depth_m);
/* Takes items first..end - 1 away. */
void plmi_review_edit_cut(struct plmi_review_edit *edit, size_t first, size_t end);

/*
 * Replays the dive as it is edited now, from where it parts from the last retry. Its scene is the edit's, until the
 * next retry.
 * Returns: OK; INPUT, MEMORY, or LIMIT where the budget is spent.
 */
enum plm_status plmi_review_edit_retry(struct plmi_review_edit *edit);
struct plm_review_scene plmi_review_edit_scene(const struct plmi_review_edit *edit);
/* The edited dive alone. put_right: written in its notes; NULL: nothing is written. */
enum plm_status plmi_review_edit_dive(struct plm_dive **out, const struct plmi_review_edit *edit,
                                      const char *put_right);

/*
 * One way to put a kind right. put_right: in words, kept by the list; left alone where earlier edits put it right
 * already.
 * Returns: OK; UNSOLVABLE where it cannot be put right; INPUT or MEMORY.
 */
struct plmi_review_editor {
    enum plm_finding_kind kind;
    enum plm_status (*apply)(struct plmi_review_edit *edit, const struct plm_finding *finding,
                             struct plm_finding_list *list, const char **put_right);
};

/* The editor of a kind, or NULL. */
const struct plmi_review_editor *plmi_review_editor_of(enum plm_finding_kind kind);
/* All editors, in the order in which they are applied together. */
const struct plmi_review_editor *const *plmi_review_editors(size_t *count);

#endif
