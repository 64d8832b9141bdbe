/*
 * The reviewers over a trace: findings, whether they hold, and what they cost.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REVIEW_H
#define PLM_REVIEW_H

#include <plimsoll/decompression.h>
#include <plimsoll/findings.h>
#include <plimsoll/replay.h>

#ifdef __cplusplus
extern "C" {
#endif

struct plm_plan_comparison; /* opaque; plan.h */

struct plm_review_input {
    const struct plm_dive *dive;
    const struct plm_trace *trace;
    const struct plm_decompression *decompression; /* NULL: not found */
    const struct plm_dive *plan;                   /* NULL: none */
    /* as the trace was made: for replays of edited and shifted dives */
    const struct plm_replay_options *replay;
};

struct plm_review_plan;  /* opaque: the plan as the reviewers of plans use it */
struct plm_review_parts; /* opaque: the dive by its way down, bottom, stops and the ways between them */
struct plm_finding_list; /* opaque: findings while they are collected */

/* What a reviewer looks at: one dive with its trace. All borrowed and const; points[count] and samples[count] belong
 * together, count >= 2. */
struct plm_review_scene {
    const struct plm_review_input *input; /* dive, trace, plan; input->decompression can be NULL */
    const struct plm_rules *rules;
    const struct plm_point *points;
    const struct plm_sample *samples; /* as recorded; depths as replayed are those of points */
    size_t count;
    const struct plm_trace_summary *summary;
    const struct plm_assumed *assumed;
    const struct plm_review_plan *plan;   /* NULL: no plan, or one that cannot be compared */
    const struct plm_review_parts *parts; /* NULL: not divided */
    void *context;                        /* of the reviewer that looks */
};

/* What `plimsoll explain` says of a kind. All fields are there for every kind. */
struct plm_explanation {
    const char *what, *reached, *formula, *source, *ask;
};

/*
 * One reviewer: a kind of finding, and the function that looks for it. Those of the library are such values as well.
 *   kind         letters a-z in words joined by single hyphens, as "bubble-check"; another one than each of the
 *                library's and of the other reviewers'. Later versions have more kinds: begin it with a name of yours
 *   unit         of value and limit, as "m", "min", "bar"; "" for none
 *   meaning      a few words
 *   look         adds what it finds by plm_finding_add. Called once for the dive and, where hold is asked for, once
 *                more for each corner of the recorder's tolerance, with the depths of that corner in points: what it
 *                finds must depend on the scene and its context alone. It must not keep the scene or the list. NULL:
 *                never
 *   explanation  all of it is there; verbose reports say what and ask, the rest is for a manual of yours
 *   context      handed to look as scene->context; the library does not touch it
 * Holds are found for every reviewer. Costs are not: the library knows for its own kinds alone how a dive is put right.
 */
struct plm_reviewer {
    const char *kind, *unit, *meaning;
    void (*look)(const struct plm_review_scene *scene, struct plm_finding_list *list);
    const struct plm_explanation *explanation;
    void *context;
};

struct plm_review_options {
    bool hold; /* replay again over the tolerance of the recorder, and where cells disagree by each of them */
    bool cost; /* replay edited dives */
    bool cost_for_severity; /* only those edits that decide a severity, and no cost of all: severities and texts are as
                               with all of them, unless the replays that a review may take run out */
    /* The caller's reviewers, [reviewer_count]; they look after the library's. They and what they point to must outlive
     * the findings. NULL with 0. */
    const struct plm_reviewer *reviewers;
    size_t reviewer_count;
};

/*
 * Runs all reviewers: the library's and those of the options.
 * Returns: OK with *out (the caller frees), or an error that is reported; ARGUMENT where a reviewer of the options is
 *          incomplete, its kind is no kebab word or is taken, or what it added cannot be a finding.
 */
PLM_API enum plm_status plm_review(struct plm_findings **out, const struct plm_review_input *input,
                                   const struct plm_review_options *options, const struct plm_diag_sink *sink);

/*
 * For a reviewer while it looks: a finding of its kind over points first..last, with their times, depths and lines
 * filled in, severity note, no text, all else unknown (NaN). The reviewer fills in severity, value, limit and text,
 * and better times and depths where it knows them (from_s <= to_s); a finding without a text is refused.
 *   first, last  points, first <= last < scene->count
 * Returns: borrowed, valid until the next one is added; NULL without memory, which plm_review reports, or where the
 *          points are out of range.
 */
PLM_API struct plm_finding *plm_finding_add(struct plm_finding_list *list, const struct plm_review_scene *scene,
                                            size_t first, size_t last);

/*
 * A sentence for a finding, owned by the list; written without a locale. Marks in braces take the arguments in turn:
 *   {t} runtime [s] as m:ss or h:mm:ss     {d} a duration [s] in words, "40 s" or "2:30 min"
 *   {w} two runtimes [s]: "from 26:45 to 28:10", or "at 26:45" where they are one
 *   {m} depth or distance [m] as "4.8 m"   {0} {1} {2} {3} a number (double) with so many digits
 *   {i} an int                             {s} a string
 * The argument of every mark but {i} and {s} is a double.
 * Returns: "" without memory, which plm_review reports.
 */
PLM_API const char *plm_finding_sentence(struct plm_finding_list *list, const char *format, ...);

/* The explanation of a kind of the library; static, NULL for others. */
PLM_API const struct plm_explanation *plm_finding_explain(enum plm_finding_kind kind);

#ifdef __cplusplus
}
#endif

#endif
