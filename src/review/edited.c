/*
 * The edited dives, made again for those who want to look at them.
 * Must not compute costs; cost.c does.
 * SPDX-License-Identifier: MIT
 */
#include <plimsoll/edited.h>

#include <stdlib.h>
#include <string.h>

#include "base/arena.h"
#include "base/diags.h"
#include "review/cost.h"
#include "review/events.h"
#include "review/findings.h"

struct plm_edited {
    struct plm_edited_dive *items;
    size_t count, capacity;
    struct plm_finding_list texts;
};

static enum plm_status keep(struct plm_edited *edited, const struct plmi_review_edit *edit, size_t finding,
                            const char *put_right)
{
    void *items = edited->items;
    if (!plmi_array_grow(&items, &edited->capacity, edited->count, sizeof *edited->items)) {
        return PLM_STATUS_MEMORY;
    }
    edited->items = items;
    struct plm_dive *dive = NULL;
    enum plm_status status = plmi_review_edit_dive(&dive, edit, put_right);
    if (status == PLM_STATUS_OK) {
        edited->items[edited->count++] = (struct plm_edited_dive){finding, put_right, dive};
    }
    return status;
}

/* All findings put right, and what went into them. */
static enum plm_status edit_all(struct plmi_review_edit *edit, const struct plm_finding_list *list,
                                struct plm_edited *edited, const char **put_right)
{
    size_t count = list->count + list->joined_count, put_right_count = 0;
    struct plm_finding *all = malloc(count * sizeof *all);
    if (all == NULL) {
        return PLM_STATUS_MEMORY;
    }
    memcpy(all, list->items, list->count * sizeof *all);
    if (list->joined_count > 0) {
        memcpy(all + list->count, list->joined, list->joined_count * sizeof *all);
    }
    enum plm_status status = plmi_review_edit_all(edit, all, count, &edited->texts, put_right, &put_right_count);
    free(all);
    return status;
}

/* One finding put right, or all of them: index PLM_EDITED_ALL. */
static enum plm_status make(struct plm_edited *edited, const struct plm_review_scene *scene,
                            const struct plm_finding_list *list, size_t index, struct plmi_review_means *means)
{
    struct plmi_review_edit edit;
    const char *put_right = NULL;
    enum plm_status status = plmi_review_edit_init(&edit, scene, means);
    if (status != PLM_STATUS_OK) {
        return status;
    }
    if (index == PLM_EDITED_ALL) {
        status = edit_all(&edit, list, edited, &put_right);
    } else {
        const struct plm_finding *one = plmi_review_events_put_right(scene, list, &list->items[index]);
        status = plmi_review_editor_of(one->kind)->apply(&edit, one, &edited->texts, &put_right);
    }
    if (status == PLM_STATUS_OK) {
        status = keep(edited, &edit, index, put_right);
    }
    plmi_review_edit_free(&edit);
    return status;
}

static enum plm_status make_all(struct plm_edited *edited, const struct plm_review_input *input,
                                const struct plm_findings *findings)
{
    struct plm_review_scene scene = plmi_review_scene_of(input);
    const struct plm_finding_list *list = &findings->list;
    struct plmi_review_means means = {.samples = PLMI_REVIEW_BUDGET};
    enum plm_status status = PLM_STATUS_OK;
    for (size_t i = 0; i < list->count && status == PLM_STATUS_OK; i++) {
        if (plmi_review_events_put_right(&scene, list, &list->items[i]) != NULL) {
            status = make(edited, &scene, list, i, &means);
        }
    }
    if (status == PLM_STATUS_OK && edited->count + list->joined_count > 1 &&
        plm_findings_all_put_right(findings)->known) {
        status = make(edited, &scene, list, PLM_EDITED_ALL, &means);
    }
    plm_trace_free(means.spare);
    return edited->texts.failed ? PLM_STATUS_MEMORY : status;
}

enum plm_status plm_edited_make(struct plm_edited **out, const struct plm_review_input *input,
                                const struct plm_findings *findings, const struct plm_diag_sink *sink)
{
    *out = calloc(1, sizeof **out);
    enum plm_status status = PLM_STATUS_MEMORY;
    if (*out != NULL) {
        plmi_finding_list_init(&(*out)->texts);
        status = make_all(*out, input, findings);
    }
    if (status == PLM_STATUS_OK) {
        return status;
    }
    struct plmi_diags diags;
    plmi_diags_init(&diags, sink, plm_dive_info_get(input->dive)->file);
    if (status == PLM_STATUS_MEMORY) {
        (void)plmi_diags_no_memory(&diags, 0, "for the edited dives");
    } else {
        plmi_diags_add(&diags, PLM_LEVEL_ERROR, PLM_DIAG_LIMIT, 0, 0, "an edited dive cannot be made again");
    }
    plm_edited_free(*out);
    *out = NULL;
    return status;
}

const struct plm_edited_dive *plm_edited_get(const struct plm_edited *edited, size_t *count)
{
    *count = edited->count;
    return edited->items;
}

void plm_edited_free(struct plm_edited *edited)
{
    if (edited == NULL) {
        return;
    }
    for (size_t i = 0; i < edited->count; i++) {
        plm_dive_free((struct plm_dive *)edited->items[i].dive);
    }
    free(edited->items);
    plmi_finding_list_free(&edited->texts);
    free(edited);
}
