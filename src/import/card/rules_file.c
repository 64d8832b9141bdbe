/*
 * Rules from INI files, each with where it was set.
 * Must not know what a rule means; base's table does.
 * SPDX-License-Identifier: MIT
 */
#include <ini.h>
#include <plimsoll/rules_file.h>
#include <stdlib.h>
#include <string.h>

#include "base/arena.h"
#include "base/diags.h"
#include "base/figure.h"
#include "base/fold.h"
#include "base/text.h"

#define BYTES_MAX      1048576 /* a rules file is small; a larger one is another file */
#define LINE_MAX_BYTES 199     /* what inih takes of a line */

struct plm_rule_origins {
    struct plmi_arena arena;
    size_t count;
    const char **texts;
};

/* One file being read. Rules and origins are laid over the caller's only when all of it was good. */
struct reading {
    struct plm_rules rules;
    struct plmi_diags diags;
    long line, *set_at; /* set_at[table]: line that set it, 0 none */
    bool bad;
};

static size_t index_of(const char *key)
{
    size_t count = 0, i = 0;
    const struct plm_rule_info *table = plm_rules_table(&count);
    while (i < count && strcmp(table[i].key, key) != 0) {
        i++;
    }
    return i;
}

struct plm_rule_origins *plm_rule_origins_new(void)
{
    struct plm_rule_origins *origins = calloc(1, sizeof *origins);
    if (origins == NULL) {
        return NULL;
    }
    plm_rules_table(&origins->count);
    plmi_arena_init(&origins->arena);
    origins->texts = calloc(origins->count, sizeof *origins->texts);
    if (origins->texts != NULL) {
        return origins;
    }
    plm_rule_origins_free(origins);
    return NULL;
}

void plm_rule_origins_free(struct plm_rule_origins *origins)
{
    if (origins == NULL) {
        return;
    }
    plmi_arena_free(&origins->arena);
    free(origins->texts);
    free(origins);
}

const char *plm_rule_origin(const struct plm_rule_origins *origins, const char *key)
{
    size_t i = index_of(key);
    return i < origins->count && origins->texts[i] != NULL ? origins->texts[i] : "default";
}

static enum plm_status origin_set(struct plm_rule_origins *origins, size_t index, const char *text)
{
    const char *kept = plmi_arena_text(&origins->arena, text, strlen(text));
    if (kept == NULL) {
        return PLM_STATUS_MEMORY;
    }
    origins->texts[index] = kept;
    return PLM_STATUS_OK;
}

enum plm_status plm_rules_set_from(struct plm_rules *rules, struct plm_rule_origins *origins, const char *key,
                                   const char *text, const char *origin)
{
    enum plm_status status = plm_rules_set(rules, key, text);
    return status == PLM_STATUS_OK && origins != NULL ? origin_set(origins, index_of(key), origin) : status;
}

static void bad_value(struct reading *reading, const struct plm_rule_info *rule, const char *value)
{
    if (rule->words != NULL) {
        plmi_diags_add(&reading->diags, PLM_LEVEL_ERROR, PLM_DIAG_RULE, reading->line, 0,
                       "%s cannot be '%s': one of %s", rule->key, value, rule->words);
    } else {
        plmi_diags_add(&reading->diags, PLM_LEVEL_ERROR, PLM_DIAG_RULE, reading->line, 0,
                       "%s cannot be '%s': a number from %s to %s%s%s", rule->key, value,
                       plmi_figure_short(rule->min, 4).text, plmi_figure_short(rule->max, 4).text,
                       rule->unit[0] == '\0' ? "" : " ", rule->unit);
    }
}

/* One key and its value, as inih hands it over; sections are free. */
static int take(void *context, const char *section, const char *key, const char *value)
{
    struct reading *reading = context;
    size_t count = 0, i = index_of(key);
    const struct plm_rule_info *table = plm_rules_table(&count);
    (void)section;
    if (i == count) {
        plmi_diags_add(&reading->diags, PLM_LEVEL_ERROR, PLM_DIAG_RULE, reading->line, 0,
                       "there is no rule '%s'; nearest is %s", key, plm_rules_nearest(key));
        reading->bad = true;
        return 1;
    }
    if (plm_rules_set(&reading->rules, key, value) != PLM_STATUS_OK) {
        bad_value(reading, &table[i], value);
        reading->bad = true;
        return 1;
    }
    if (reading->set_at[i] > 0) {
        plmi_diags_add(&reading->diags, PLM_LEVEL_WARNING, PLM_DIAG_RULE, reading->line, 0,
                       "%s was set in line %ld already; this line holds", key, reading->set_at[i]);
    }
    reading->set_at[i] = reading->line;
    return 1;
}

/* Each line by itself: inih tells of the first bad one only, and knows continued lines that rules have not. */
static void read_line(struct reading *reading, char *line, size_t length)
{
    reading->line++;
    while (length > 0 && (*line == ' ' || *line == '\t')) {
        line++;
        length--;
    }
    if (length > 0 && line[length - 1] == '\r') {
        line[--length] = '\0';
    }
    if (memchr(line, '\0', length) != NULL || length > LINE_MAX_BYTES) {
        plmi_diags_add(&reading->diags, PLM_LEVEL_ERROR, PLM_DIAG_RULE, reading->line, 0,
                       length > LINE_MAX_BYTES ? "longer than %d bytes" : "no text", LINE_MAX_BYTES);
    } else if (ini_parse_string(line, take, reading) == 0) {
        return;
    } else {
        plmi_diags_add(&reading->diags, PLM_LEVEL_ERROR, PLM_DIAG_RULE, reading->line, 0,
                       "neither 'key = value', a [section] nor a comment");
    }
    reading->bad = true;
}

static void read_lines(struct reading *reading, char *text, size_t count)
{
    if (count >= 3 && memcmp(text, "\xEF\xBB\xBF", 3) == 0) {
        text += 3;
        count -= 3;
    }
    while (count > 0) {
        char *end = memchr(text, '\n', count);
        size_t length = end == NULL ? count : (size_t)(end - text);
        text[length] = '\0';
        read_line(reading, text, length);
        size_t taken = end == NULL ? count : length + 1;
        text += taken;
        count -= taken;
    }
}

/* All of a source, with room for a NUL. */
static enum plm_status slurp(struct plm_source *source, struct plmi_diags *diags, char **text, size_t *count)
{
    *text = malloc(BYTES_MAX + 2);
    *count = 0;
    enum plm_status status = *text == NULL ? PLM_STATUS_MEMORY : PLM_STATUS_OK;
    while (status == PLM_STATUS_OK && *count <= BYTES_MAX) {
        size_t got = 0;
        status = plm_source_read(source, *text + *count, BYTES_MAX + 1 - *count, &got);
        *count += got;
    }
    if (status == PLM_STATUS_MEMORY && *text == NULL) {
        (void)plmi_diags_no_memory(diags, 0, "for a rules file");
    }
    if (status == PLM_STATUS_OK) {
        plmi_diags_add(diags, PLM_LEVEL_ERROR, PLM_DIAG_LIMIT, 0, 0,
                       "longer than %d bytes: is this a rules file? not read", BYTES_MAX);
        return PLM_STATUS_LIMIT;
    }
    return status == PLM_STATUS_END ? PLM_STATUS_OK : status;
}

static enum plm_status keep_origins(const struct reading *reading, struct plm_rule_origins *origins, const char *file)
{
    struct plmi_text text;
    plmi_text_init(&text);
    enum plm_status status = PLM_STATUS_OK;
    for (size_t i = 0; origins != NULL && i < origins->count && status == PLM_STATUS_OK; i++) {
        if (reading->set_at[i] == 0) {
            continue;
        }
        plmi_text_clear(&text);
        plmi_text_printf(&text, "%s:%ld", file, reading->set_at[i]);
        status = text.failed ? PLM_STATUS_MEMORY : origin_set(origins, i, text.bytes);
    }
    plmi_text_free(&text);
    return status;
}

static enum plm_status read_all(struct reading *reading, struct plm_source *source)
{
    char *text = NULL;
    size_t count = 0;
    enum plm_status status = slurp(source, &reading->diags, &text, &count);
    if (status == PLM_STATUS_OK) {
        read_lines(reading, text, count);
        status = reading->bad ? PLM_STATUS_INPUT : PLM_STATUS_OK;
    }
    free(text);
    return status;
}

enum plm_status plm_rules_read(struct plm_rules *rules, struct plm_rule_origins *origins, struct plm_source *source,
                               const struct plm_diag_sink *sink)
{
    size_t count = 0;
    plm_rules_table(&count);
    struct reading reading = {.rules = *rules, .set_at = calloc(count, sizeof *reading.set_at)};
    struct plmi_fold fold;
    plmi_fold_init(&fold, sink, plm_source_name(source));
    plmi_diags_init(&reading.diags, &fold.sink, plm_source_name(source));
    enum plm_status status = PLM_STATUS_MEMORY;
    if (reading.set_at != NULL) {
        status = read_all(&reading, source);
    } else {
        (void)plmi_diags_no_memory(&reading.diags, 0, "for a rules file");
    }
    if (status == PLM_STATUS_OK) {
        *rules = reading.rules;
        status = keep_origins(&reading, origins, plm_source_name(source));
    }
    plmi_fold_finish(&fold);
    free(reading.set_at);
    return status;
}
