/*
 * Findings while they are collected: a list that grows, and the sentences that go with it.
 * Must not judge: the reviewers do.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REVIEW_SCENE_LIST_H
#define PLM_REVIEW_SCENE_LIST_H

#include <plimsoll/findings.h>

#include "base/arena.h"

/* Sentences live in texts. failed stays true once memory ran out. */
struct plmi_review_list {
    struct plm_finding *items;
    size_t count, capacity;
    struct plmi_arena texts;
    bool failed;
};

void plmi_review_list_init(struct plmi_review_list *list);
void plmi_review_list_free(struct plmi_review_list *list);

/*
 * A finding of a kind with its unit, all else unknown: NaN, no text, hold untried.
 * Returns: borrowed, valid until the next one is added; NULL without memory.
 */
struct plm_finding *plmi_review_list_add(struct plmi_review_list *list, enum plm_finding_kind kind);

/*
 * A sentence owned by the list. Marks in braces take the arguments in turn:
 *   {t} runtime [s] as m:ss or h:mm:ss     {d} a duration [s] in words, "40 s" or "2:30 min"
 *   {w} two runtimes [s]: "from 26:45 to 28:10", or "at 26:45" where they are one
 *   {m} depth or distance [m] as "4.8 m"   {0} {1} {2} {3} a number with so many digits
 *   {i} an int                             {s} a string
 * Returns: "" without memory, and list->failed.
 */
const char *plmi_review_sentence(struct plmi_review_list *list, const char *format, ...);

/* Worst first: by severity, then in the order of the kinds, then by time. */
void plmi_review_list_sort(struct plmi_review_list *list);

/* The findings as the frozen value; takes the list over in any case. NULL without memory. */
struct plm_findings *plmi_review_list_finish(struct plmi_review_list *list);

#endif
