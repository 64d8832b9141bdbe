/*
 * The table of logs that can be written, and the walk through one. Must not know how any of them looks.
 * SPDX-License-Identifier: MIT
 */
#include <stdlib.h>
#include <string.h>

#include "export/exporter.h"
#include "io/text_write.h"

static const struct plmi_exporter *const exporters[] = {
    &plmi_exporter_uddf,
    &plmi_exporter_csv,
};

#define EXPORTERS_COUNT (sizeof exporters / sizeof exporters[0])

size_t plm_export_format_count(void)
{
    return EXPORTERS_COUNT;
}

const struct plm_export_format *plm_export_format_get(size_t index)
{
    return index < EXPORTERS_COUNT ? &exporters[index]->format : NULL;
}

static const struct plmi_exporter *exporter_find(const char *name)
{
    for (size_t i = 0; i < EXPORTERS_COUNT; i++) {
        if (strcmp(exporters[i]->format.name, name) == 0) {
            return exporters[i];
        }
    }
    return NULL;
}

const struct plm_export_format *plm_export_format_find(const char *name)
{
    const struct plmi_exporter *exporter = exporter_find(name);
    return exporter != NULL ? &exporter->format : NULL;
}

static enum plm_status no_memory(struct plmi_diags *diags)
{
    return plmi_diags_no_memory(diags, 0, "to write the log");
}

enum plm_status plm_export_open(struct plm_export **out, const char *format, const struct plm_sink *sink,
                                const struct plm_diag_sink *diag)
{
    struct plmi_diags diags;
    const struct plmi_exporter *exporter = exporter_find(format);
    *out = NULL;
    plmi_diags_init(&diags, diag, NULL);
    if (exporter == NULL) {
        plmi_diags_add(&diags, PLM_LEVEL_ERROR, PLM_DIAG_USAGE, 0, 0, "no log of the format %s can be written", format);
        return PLM_STATUS_ARGUMENT;
    }
    struct plm_export *export = calloc(1, sizeof *export);
    if (export == NULL) {
        return no_memory(&diags);
    }
    export->exporter = exporter;
    export->sink = sink;
    export->diag = diag;
    plmi_diags_init(&export->diags, diag, NULL);
    plmi_arena_init(&export->arena);
    plmi_text_init(&export->body);
    *out = export;
    return PLM_STATUS_OK;
}

enum plm_status plm_export_add(struct plm_export *export, const struct plm_dive *dive)
{
    if (export->exporter->format.one_dive && export->dives > 0) {
        plmi_diags_add(&export->diags, PLM_LEVEL_ERROR, PLM_DIAG_USAGE, 0, 0,
                       "a log of the format %s holds one dive and no more", export->exporter->format.name);
        return PLM_STATUS_ARGUMENT;
    }
    const char *file = plm_dive_info_get(dive)->file;
    struct plmi_fold fold;
    plmi_fold_init(&fold, export->diag, file);
    plmi_diags_init(&export->diags, &fold.sink, file);
    export->exporter->add(export, dive);
    export->dives++;
    plmi_fold_finish(&fold);
    plmi_diags_init(&export->diags, export->diag, NULL);
    return export->failed || export->body.failed ? no_memory(&export->diags) : PLM_STATUS_OK;
}

enum plm_status plm_export_finish(struct plm_export *export)
{
    struct plmi_text out;
    if (export->dives == 0) {
        plmi_diags_add(&export->diags, PLM_LEVEL_ERROR, PLM_DIAG_USAGE, 0, 0, "there is no dive to write");
        return PLM_STATUS_ARGUMENT;
    }
    plmi_text_init(&out);
    export->exporter->write(export, &out);
    out.failed = out.failed || export->failed || export->body.failed;
    return plmi_text_write(&out, export->sink, export->diag);
}

void plm_export_free(struct plm_export *export)
{
    if (export == NULL) {
        return;
    }
    struct plmi_export_definitions *definitions = &export->definitions;
    free(definitions->mixes);
    free(definitions->factors);
    free(definitions->sites.name);
    free(definitions->recorders.name);
    free(definitions->tanks.name);
    free(definitions->ids.name);
    plmi_text_free(&export->body);
    plmi_arena_free(&export->arena);
    free(export);
}
