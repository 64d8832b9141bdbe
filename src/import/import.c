/*
 * The driver: looks at the first bytes, picks the reader with most evidence, and hands its dives on.
 * Knows nothing of any format.
 * SPDX-License-Identifier: MIT
 */
#include <stdlib.h>
#include <string.h>

#include "base/fold.h"
#include "import/format/head.h"
#include "import/formats.h"
#include "import/import.h"

struct plm_import {
    const struct plmi_format *format;
    struct plmi_reader *reader;
    struct plm_import_options options;
    struct plmi_fold fold;   /* over the whole file */
    struct plmi_diags diags; /* into fold */
    bool over;
    enum plm_status status; /* once over */
};

static enum plm_status pick_format(struct plm_import *import, struct plm_source *source)
{
    const unsigned char *head;
    size_t n;
    enum plm_status status = plm_source_peek(source, &head, &n);
    if (status != PLM_STATUS_OK && status != PLM_STATUS_END) {
        return status;
    }
    if (n == 0) {
        plmi_diags_add(&import->diags, PLM_LEVEL_ERROR, PLM_DIAG_EMPTY, 0, 0, "the input is empty; nothing read");
        return PLM_STATUS_INPUT;
    }
    size_t count;
    const struct plmi_format *const *formats = plmi_formats(&count);
    int most = 0;
    for (size_t i = 0; i < count; i++) {
        int bits = formats[i]->probe(head, n);
        if (bits > most) {
            most = bits;
            import->format = formats[i];
        }
    }
    if (import->format == NULL) {
        char root[64];
        bool ignored;
        struct plmi_head text;
        plmi_head_read(&text, head, n);
        plmi_head_root(&text, root, "", &ignored);
        plmi_diags_add(&import->diags, PLM_LEVEL_ERROR, PLM_DIAG_FORMAT_UNKNOWN, 0, 0,
                       "no known format: the input looks like %s%s%s%s; UDDF and tables of text (CSV) are read",
                       plmi_head_kind(head, n), root[0] != '\0' ? " with the root element '" : "", root,
                       root[0] != '\0' ? "'" : "");
        return PLM_STATUS_INPUT;
    }
    if (import->format->info.refused) {
        plmi_diags_add(&import->diags, PLM_LEVEL_ERROR, PLM_DIAG_FORMAT_REFUSED, 0, 0, "%s", import->format->refusal);
        return PLM_STATUS_INPUT;
    }
    return PLM_STATUS_OK;
}

enum plm_status plm_import_open(struct plm_import **out, struct plm_source *source,
                                const struct plm_import_options *options, const struct plm_diag_sink *sink)
{
    *out = NULL;
    struct plm_import *import = calloc(1, sizeof *import);
    if (import == NULL) {
        const struct plmi_diags diags = {sink, plm_source_name(source)};
        return plmi_diags_no_memory(&diags, 0, "to open the input");
    }
    import->options = *options;
    plmi_fold_init(&import->fold, sink, plm_source_name(source));
    plmi_diags_init(&import->diags, &import->fold.sink, plm_source_name(source));
    enum plm_status status = pick_format(import, source);
    if (status == PLM_STATUS_OK) {
        status = import->format->open(&import->reader, source, &import->options, &import->diags);
    }
    if (status != PLM_STATUS_OK) {
        plmi_fold_finish(&import->fold);
        plm_import_free(import);
        return status;
    }
    *out = import;
    return PLM_STATUS_OK;
}

enum plm_status plm_import_next(struct plm_import *import, struct plm_dive **out)
{
    *out = NULL;
    if (import->over) {
        return import->status;
    }
    enum plm_status status = import->format->next(import->reader, out);
    if (status == PLM_STATUS_OK) {
        return PLM_STATUS_OK;
    }
    import->over = true;
    import->status = status;
    plmi_fold_finish(&import->fold);
    return status;
}

const struct plmi_diags *plmi_import_diags(const struct plm_import *import)
{
    return &import->diags;
}

int plm_import_dives(const struct plm_import *import)
{
    return import->format->dives(import->reader);
}

bool plm_import_partial(const struct plm_import *import)
{
    bool failed = import->over && import->status != PLM_STATUS_END;
    return failed || import->format->partial(import->reader);
}

const char *plm_import_format(const struct plm_import *import)
{
    return import->format->info.name;
}

const struct plm_verdict *plm_import_verdict(const struct plm_import *import)
{
    return import->format->verdict(import->reader);
}

void plm_import_free(struct plm_import *import)
{
    if (import == NULL) {
        return;
    }
    if (import->reader != NULL) {
        import->format->free(import->reader);
    }
    free(import);
}
