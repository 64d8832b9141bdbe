/*
 * What a log refers to by an id: ids that no other element has, and the mixes, each defined once. Must not write any.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <string.h>

#include "export/uddf.h"

/* Whether a text can be an id of XML and is none of the kinds that are numbered here, but for its own. */
static bool id_possible(const char *text, const char *kind)
{
    static const char *const kinds[] = {"mix-",   "site-", "tank-",  "cell-", "recorder-",
                                        "group-", "dive-", "model-", "owner", "loop"};
    static const char letters[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz_";
    static const char others[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz_0123456789.-";
    if (text == NULL || text[0] == '\0' || strchr(letters, text[0]) == NULL || text[strspn(text, others)] != '\0' ||
        strlen(text) > 100) {
        return false;
    }
    for (size_t i = 0; i < sizeof kinds / sizeof kinds[0]; i++) {
        if (strncmp(text, kinds[i], strlen(kinds[i])) == 0 && strncmp(kinds[i], kind, strlen(kind)) != 0) {
            return false;
        }
    }
    return true;
}

static bool id_taken(const struct plm_export *export, const char *id)
{
    const struct plmi_export_names *ids = &export->definitions.ids;
    for (size_t i = 0; i < ids->count; i++) {
        if (strcmp(ids->name[i], id) == 0) {
            return true;
        }
    }
    return false;
}

const char *plmi_export_uddf_id(struct plm_export *export, const char *stated, const char *kind, size_t n)
{
    struct plmi_text id;
    plmi_text_init(&id);
    if (id_possible(stated, kind)) {
        plmi_text_puts(&id, stated);
    }
    while (!id.failed && (id.count == 0 || id_taken(export, id.bytes))) {
        plmi_text_clear(&id);
        plmi_text_printf(&id, "%s-%zu", kind, n++);
    }
    size_t at = id.failed ? 0 : plmi_export_name(export, &export->definitions.ids, id.bytes);
    export->failed = export->failed || id.failed;
    plmi_text_free(&id);
    return at > 0 ? export->definitions.ids.name[at - 1] : "";
}

static bool same_number(double a, double b)
{
    return (isnan(a) && isnan(b)) || a == b;
}

static bool same_mix(const struct plmi_export_mix *one, const struct plm_dive_mix *mix)
{
    return strcmp(one->name, mix->name) == 0 && same_number(one->o2_frac, mix->mix.o2_frac) &&
           same_number(one->he_frac, mix->mix.he_frac) && same_number(one->po2_max_bar, mix->po2_max_bar);
}

/* The definition that fits: by its id, and where that id cannot be had, by what is in it. NULL: none. */
static const struct plmi_export_mix *mix_known(const struct plm_export *export, const struct plm_dive_mix *mix)
{
    const struct plmi_export_definitions *definitions = &export->definitions;
    for (size_t i = 0; i < definitions->mix_count; i++) {
        if (strcmp(definitions->mixes[i].id, mix->id) == 0 && same_mix(&definitions->mixes[i], mix)) {
            return &definitions->mixes[i];
        }
    }
    bool free_id = id_possible(mix->id, "mix") && !id_taken(export, mix->id);
    for (size_t i = 0; i < definitions->mix_count && !free_id; i++) {
        if (same_mix(&definitions->mixes[i], mix)) {
            return &definitions->mixes[i];
        }
    }
    return NULL;
}

const char *plmi_export_uddf_mix(struct plm_export *export, const struct plm_dive_mix *mix)
{
    struct plmi_export_definitions *definitions = &export->definitions;
    const struct plmi_export_mix *known = mix_known(export, mix);
    if (known != NULL) {
        return known->id;
    }
    if (!plmi_array_grow((void **)&definitions->mixes, &definitions->mix_capacity, definitions->mix_count,
                         sizeof *definitions->mixes)) {
        export->failed = true;
        return "";
    }
    struct plmi_export_mix *one = &definitions->mixes[definitions->mix_count];
    *one = (struct plmi_export_mix){.o2_frac = mix->mix.o2_frac,
                                    .he_frac = mix->mix.he_frac,
                                    .n2_frac = mix->mix.n2_frac,
                                    .po2_max_bar = mix->po2_max_bar};
    one->id = plmi_export_uddf_id(export, mix->id, "mix", definitions->mix_count + 1);
    one->name = plmi_export_keep(export, mix->name);
    definitions->mix_count++;
    return one->id;
}
