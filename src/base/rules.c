/*
 * The table of rules and setting one from text. Must not judge anything by them.
 * SPDX-License-Identifier: MIT
 */
#include <plimsoll/nearest.h>
#include <plimsoll/rules.h>

#include <string.h>

#include "base/figure.h"
#include "base/number.h"
#include "base/text.h"

static const struct plm_rule_info rule_table[] = {
#define PLM_RULE(key, value, unit, min, max, meaning, source) \
    {#key, unit, NULL, value, min, max, offsetof(struct plm_rules, key), meaning, source},
#define PLM_RULE_CHOICE(key, value, words, meaning, source) \
    {#key, "", words, value, 0, 0, offsetof(struct plm_rules, key), meaning, source},
#include <plimsoll/rules.def>
#undef PLM_RULE
#undef PLM_RULE_CHOICE
};

enum { RULE_COUNT = sizeof rule_table / sizeof rule_table[0] };

struct plm_rules plm_rules_default(void)
{
    return (struct plm_rules){
#define PLM_RULE(key, value, unit, min, max, meaning, source) .key = value,
#define PLM_RULE_CHOICE(key, value, words, meaning, source)   .key = value,
#include <plimsoll/rules.def>
#undef PLM_RULE
#undef PLM_RULE_CHOICE
    };
}

const struct plm_rule_info *plm_rules_table(size_t *count)
{
    *count = RULE_COUNT;
    return rule_table;
}

/* Where the flag of each rule stands. */
static const size_t flag_offsets[] = {
#define PLM_RULE(key, value, unit, min, max, meaning, source) offsetof(struct plm_rules_stated, key),
#define PLM_RULE_CHOICE(key, value, words, meaning, source)   offsetof(struct plm_rules_stated, key),
#include <plimsoll/rules.def>
#undef PLM_RULE
#undef PLM_RULE_CHOICE
};

static const struct plm_rule_info *find_rule(const char *key)
{
    for (size_t i = 0; i < RULE_COUNT; i++) {
        if (strcmp(rule_table[i].key, key) == 0) {
            return &rule_table[i];
        }
    }
    return NULL;
}

static bool stated_get(const struct plm_rules_stated *stated, const struct plm_rule_info *rule)
{
    bool flag = false;
    if (stated != NULL) {
        memcpy(&flag, (const char *)stated + flag_offsets[rule - rule_table], sizeof flag);
    }
    return flag;
}

void plm_rules_stated_add(struct plm_rules_stated *stated, const char *key)
{
    const struct plm_rule_info *rule = find_rule(key);
    const bool flag = true;
    if (rule != NULL) {
        memcpy((char *)stated + flag_offsets[rule - rule_table], &flag, sizeof flag);
    }
}

bool plm_rules_stated_has(const struct plm_rules_stated *stated, const char *key)
{
    const struct plm_rule_info *rule = find_rule(key);
    return rule != NULL && stated_get(stated, rule);
}

void plm_rules_lay(struct plm_rules *rules, const struct plm_rules *over, const struct plm_rules_stated *stated,
                   const struct plm_rules_stated *kept)
{
    for (size_t i = 0; i < RULE_COUNT; i++) {
        const struct plm_rule_info *rule = &rule_table[i];
        size_t size = rule->words != NULL ? sizeof(int) : sizeof(double);
        if (stated_get(stated, rule) && !stated_get(kept, rule)) {
            memcpy((char *)rules + rule->offset, (const char *)over + rule->offset, size);
        }
    }
}

/* Index of text among words split by '|', -1 where it is none. */
static int find_word(const char *words, const char *text)
{
    size_t length = strlen(text);
    int index = 0;
    for (const char *word = words; word != NULL; index++) {
        const char *bar = strchr(word, '|');
        size_t n = bar == NULL ? strlen(word) : (size_t)(bar - word);
        if (n == length && plmi_text_starts(word, text)) {
            return index;
        }
        word = bar == NULL ? NULL : bar + 1;
    }
    return -1;
}

enum plm_status plm_rules_set(struct plm_rules *rules, const char *key, const char *text)
{
    const struct plm_rule_info *rule = find_rule(key);
    if (rule == NULL) {
        return PLM_STATUS_ARGUMENT;
    }
    char *field = (char *)rules + rule->offset;
    if (rule->words != NULL) {
        int index = find_word(rule->words, text);
        if (index < 0) {
            return PLM_STATUS_ARGUMENT;
        }
        memcpy(field, &index, sizeof index);
        return PLM_STATUS_OK;
    }
    double value = 0;
    if (!plmi_number_parse(text, strlen(text), '.', &value) || value < rule->min || value > rule->max) {
        return PLM_STATUS_ARGUMENT;
    }
    memcpy(field, &value, sizeof value);
    return PLM_STATUS_OK;
}

/* The word of a choice, split off its row. */
static void put_word(char *buffer, size_t size, const char *words, int index)
{
    for (int i = 0; i < index; i++) {
        words = strchr(words, '|') + 1;
    }
    size_t length = strcspn(words, "|");
    length = length < size ? length : size - 1;
    memcpy(buffer, words, length);
    buffer[length] = '\0';
}

char *plm_rules_get(const struct plm_rules *rules, const char *key, char *buffer, size_t size)
{
    const struct plm_rule_info *rule = find_rule(key);
    buffer[0] = '\0';
    if (rule == NULL) {
        return buffer;
    }
    const char *field = (const char *)rules + rule->offset;
    if (rule->words != NULL) {
        int index = 0;
        memcpy(&index, field, sizeof index);
        put_word(buffer, size, rule->words, index);
        return buffer;
    }
    double value = 0;
    memcpy(&value, field, sizeof value);
    struct plmi_figure figure = plmi_figure_short(value, 6);
    put_word(buffer, size, figure.text, 0);
    return buffer;
}

const char *plm_rules_nearest(const char *key)
{
    struct plm_nearest nearest = plm_nearest_begin(key);
    for (size_t i = 0; i < RULE_COUNT; i++) {
        plm_nearest_offer(&nearest, rule_table[i].key);
    }
    return nearest.known;
}
