/*
 * Findings while they are collected: a list that grows, and the sentences that go with it.
 * Must not judge: the reviewers do.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REVIEW_SCENE_LIST_H
#define PLM_REVIEW_SCENE_LIST_H

#include <plimsoll/review.h>

#include "base/arena.h"

/* Sentences live in texts. failed stays true once memory ran out; misused tells the reviewer, if any, that added what
 * cannot be a finding. reviewer and kind: who looks. */
struct plm_finding_list {
    struct plm_finding *items;
    size_t count, capacity;
    struct plm_finding *joined; /* what went into others of the list, as it was found */
    size_t joined_count, joined_capacity;
    struct plmi_arena texts;
    bool failed;
    const struct plm_reviewer *reviewer, *misused;
    enum plm_finding_kind kind;
};

void plmi_finding_list_init(struct plm_finding_list *list);
void plmi_finding_list_free(struct plm_finding_list *list);

/*
 * A finding of the reviewer that looks, all else unknown: NaN, no text, hold untried.
 * Returns: borrowed, valid until the next one is added; NULL without memory.
 */
struct plm_finding *plmi_finding_list_add(struct plm_finding_list *list);

/*
 * Severity and share by what was reached, against the bounds from which the kind is a caution and serious; below the
 * first it is a note. serious INFINITY: never, and the share is 0.
 */
void plmi_finding_grade(struct plm_finding *finding, double reached, double caution, double serious);

/* Takes an item out of the list and keeps it among those that were joined; without memory it is lost, and failed. */
void plmi_finding_list_join(struct plm_finding_list *list, size_t item);

/* Worst first: by severity, then by the share of the serious bound, in the order of the kinds, by time. */
void plmi_finding_list_sort(struct plm_finding_list *list);

#endif
