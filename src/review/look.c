/*
 * The reviewers, one after the other, over a scene; those of the caller are looked at before and after.
 * Must not replay.
 * SPDX-License-Identifier: MIT
 */
#include "review/look.h"

#include <string.h>

#include "review/kinds/reviewers.h"
#include "review/scene/parts.h"

static void look(const struct plm_review_scene *scene, const struct plm_reviewer *reviewer, size_t kind,
                 struct plm_finding_list *list)
{
    if (reviewer->look == NULL || list->failed) {
        return;
    }
    struct plm_review_scene own = *scene;
    own.context = reviewer->context;
    list->reviewer = reviewer;
    list->kind = (enum plm_finding_kind)kind;
    reviewer->look(&own, list);
}

static bool is_finding(const struct plm_finding *finding, const struct plm_review_scene *scene,
                       const struct plm_reviewer *reviewer)
{
    return finding->reviewer == reviewer && (int)finding->severity >= PLM_SEVERITY_NOTE &&
           finding->severity <= PLM_SEVERITY_SERIOUS && finding->text != NULL && finding->text[0] != '\0' &&
           finding->from_s <= finding->to_s && finding->first_point <= finding->last_point &&
           finding->last_point < scene->count;
}

/* What a caller's reviewer added. */
static void check(const struct plm_review_scene *scene, const struct plm_reviewer *reviewer, size_t first,
                  struct plm_finding_list *list)
{
    for (size_t i = first; i < list->count; i++) {
        if (!is_finding(&list->items[i], scene, reviewer)) {
            list->misused = reviewer;
        }
    }
}

static enum plm_status look_divided(const struct plm_review_scene *scene, const struct plm_review_options *options,
                                    struct plm_finding_list *list)
{
    size_t count = 0, own_count = options != NULL ? options->reviewer_count : 0;
    const struct plm_reviewer *const *table = plmi_review_table(&count);
    for (size_t i = 0; i < count; i++) {
        look(scene, table[i], i, list);
    }
    for (size_t i = 0; i < own_count; i++) {
        size_t first = list->count;
        look(scene, &options->reviewers[i], count + i, list);
        check(scene, &options->reviewers[i], first, list);
    }
    return list->failed ? PLM_STATUS_MEMORY : list->misused != NULL ? PLM_STATUS_ARGUMENT : PLM_STATUS_OK;
}

enum plm_status plmi_review_look_all(const struct plm_review_scene *scene, const struct plm_review_options *options,
                                     struct plm_finding_list *list)
{
    struct plm_review_parts parts;
    enum plm_status status = plmi_review_parts_find(&parts, scene);
    if (status != PLM_STATUS_OK) {
        return status;
    }
    struct plm_review_scene divided = *scene;
    divided.parts = &parts;
    status = look_divided(&divided, options, list);
    plmi_review_parts_free(&parts);
    return status;
}

/* Words of a-z joined by single hyphens. */
static bool is_kebab(const char *word)
{
    for (const char *at = word;; at++) {
        size_t letters = strspn(at, "abcdefghijklmnopqrstuvwxyz");
        at += letters;
        if (letters == 0 || *at != '-') {
            return letters > 0 && *at == '\0';
        }
    }
}

static bool is_explained(const struct plm_explanation *explanation)
{
    return explanation != NULL && explanation->what != NULL && explanation->reached != NULL &&
           explanation->formula != NULL && explanation->source != NULL && explanation->ask != NULL;
}

static bool is_taken(const struct plm_review_options *options, size_t index)
{
    const char *kind = options->reviewers[index].kind;
    for (int i = 0; i < PLM_FINDING_COUNT; i++) {
        if (strcmp(plm_finding_kind_text((enum plm_finding_kind)i), kind) == 0) {
            return true;
        }
    }
    for (size_t i = 0; i < index; i++) {
        if (strcmp(options->reviewers[i].kind, kind) == 0) {
            return true;
        }
    }
    return false;
}

/* What is wrong with a reviewer of the options; NULL where nothing is. */
static const char *fault(const struct plm_review_options *options, size_t index)
{
    const struct plm_reviewer *one = &options->reviewers[index];
    if (one->kind == NULL || !is_kebab(one->kind)) {
        return "its kind is not of letters a-z in words joined by hyphens";
    }
    if (one->unit == NULL || one->meaning == NULL || !is_explained(one->explanation)) {
        return "its unit, its meaning or a part of its explanation is missing";
    }
    return is_taken(options, index) ? "there is a reviewer of that kind already" : NULL;
}

enum plm_status plmi_review_options_check(const struct plm_review_options *options, struct plmi_diags *diags)
{
    for (size_t i = 0; i < options->reviewer_count; i++) {
        const char *wrong = fault(options, i);
        if (wrong != NULL) {
            const char *kind = options->reviewers[i].kind;
            plmi_diags_add(diags, PLM_LEVEL_ERROR, PLM_DIAG_USAGE, 0, 0,
                           "reviewer %zu of the caller, \"%s\": %s; nothing was reviewed", i + 1,
                           kind != NULL ? kind : "", wrong);
            return PLM_STATUS_ARGUMENT;
        }
    }
    return PLM_STATUS_OK;
}
