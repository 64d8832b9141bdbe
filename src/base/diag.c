/*
 * Words and the one written form of diagnostics. Must not print or keep any.
 * SPDX-License-Identifier: MIT
 */
#include <plimsoll/diag.h>

#include <plimsoll/text.h>

#include <assert.h>
#include <stdio.h>

static const char *const id_words[] = {
#define PLM_DIAG(name, id, meaning) id,
#include <plimsoll/diag_ids.def>
#undef PLM_DIAG
};

static const char *const level_words[] = {
    [PLM_LEVEL_NOTE] = "note",
    [PLM_LEVEL_WARNING] = "warning",
    [PLM_LEVEL_ERROR] = "error",
};

const char *plm_diag_id_text(enum plm_diag_id id)
{
    size_t at = (size_t)id;
    return at < sizeof id_words / sizeof id_words[0] ? id_words[at] : "unknown";
}

const char *plm_level_text(enum plm_level level)
{
    size_t at = (size_t)level;
    return at < sizeof level_words / sizeof level_words[0] ? level_words[at] : "unknown";
}

/* "41:7: ", "41: " or "": what is known of line and column. */
static void write_line(const struct plm_place *place, char *buffer, size_t size)
{
    buffer[0] = '\0';
    if (place->line > 0 && place->column > 0) {
        (void)snprintf(buffer, size, "%ld:%ld:", place->line, place->column);
    } else if (place->line > 0) {
        (void)snprintf(buffer, size, "%ld:", place->line);
    }
}

/* One part behind the others, as much of it as fits. */
static void part_add(char *buffer, size_t size, size_t *length, const char *part)
{
    char nothing[1];
    size_t added =
        *length < size ? plm_text_plain(part, buffer + *length, size - *length) : plm_text_plain(part, nothing, 1);
    *length += added;
}

size_t plm_diag_format(const struct plm_diag *diag, char *buffer, size_t size)
{
    assert(size > 0);
    char line[64];
    write_line(&diag->place, line, sizeof line);
    const char *file = diag->place.file;
    const char *const parts[] = {
        file,
        file == NULL ? "" : ":",
        line,
        file == NULL && line[0] == '\0' ? "" : " ",
        plm_level_text(diag->level),
        ": ",
        diag->text,
        " [",
        plm_diag_id_text(diag->id),
        "]",
    };
    size_t length = 0;
    buffer[0] = '\0';
    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++) {
        part_add(buffer, size, &length, parts[i]);
    }
    return length;
}
