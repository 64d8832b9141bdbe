/*
 * Whether a row read out of a ledger holds what its columns can hold: ledgers come from strangers, and a file says of
 * itself what is checked in it. Must not put anything right.
 * SPDX-License-Identifier: MIT
 */
#include "ledger/fields.h"

#include <math.h>
#include <string.h>

static bool sound_text(sqlite3_stmt *row, const struct plmi_field *field)
{
    if (sqlite3_column_type(row, field->column) != SQLITE_TEXT) {
        return false;
    }
    const char *text = (const char *)sqlite3_column_text(row, field->column);
    double count = sqlite3_column_bytes(row, field->column);
    return text == NULL || (strlen(text) == (size_t)count && count >= field->min && count <= field->max);
}

static bool sound_tissue(sqlite3_stmt *row, const struct plmi_field *field)
{
    if (sqlite3_column_type(row, field->column) != SQLITE_BLOB) {
        return false;
    }
    const void *bytes = sqlite3_column_blob(row, field->column);
    struct plm_tissue tissue;
    if (bytes == NULL || sqlite3_column_bytes(row, field->column) != PLMI_TISSUE_BYTES) {
        return false;
    }
    plmi_tissue_unpack(&tissue, bytes);
    for (int i = 0; i < PLM_COMPARTMENTS; i++) {
        if (!(tissue.n2_bar[i] >= field->min && tissue.n2_bar[i] <= field->max && tissue.he_bar[i] >= field->min &&
              tissue.he_bar[i] <= field->max)) {
            return false;
        }
    }
    return true;
}

static bool sound_number(sqlite3_stmt *row, const struct plmi_field *field)
{
    int type = sqlite3_column_type(row, field->column);
    double value = sqlite3_column_double(row, field->column);
    return (type == SQLITE_INTEGER || (type == SQLITE_FLOAT && field->kind == PLMI_FIELD_NUMBER)) &&
           value >= field->min && value <= field->max;
}

static bool sound(sqlite3_stmt *row, const struct plmi_field *field)
{
    static bool (*const kinds[])(sqlite3_stmt *, const struct plmi_field *) = {[PLMI_FIELD_INTEGER] = sound_number,
                                                                               [PLMI_FIELD_NUMBER] = sound_number,
                                                                               [PLMI_FIELD_TEXT] = sound_text,
                                                                               [PLMI_FIELD_TISSUE] = sound_tissue};
    if (sqlite3_column_type(row, field->column) == SQLITE_NULL) {
        return field->unknown;
    }
    return kinds[field->kind](row, field);
}

bool plmi_ledger_fields_sound(struct plm_ledger *ledger, sqlite3_stmt *row, const struct plmi_field *fields,
                              size_t count, int64_t exposure)
{
    bool all = true;
    for (size_t i = 0; i < count; i++) {
        if (!sound(row, &fields[i])) {
            all = false;
            plmi_diags_add(&ledger->diags, PLM_LEVEL_ERROR, PLM_DIAG_LEDGER, 0, 0,
                           "what is stored of dive %lld is damaged: %s is not what it can be; keep a copy of the "
                           "file, and restore it from a backup or add"
                           " the logs to a new one",
                           (long long)exposure, fields[i].name);
        }
    }
    return all;
}
