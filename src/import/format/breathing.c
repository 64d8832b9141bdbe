/*
 * Names of mixes, modes and uses, known by their words. Must not know any file.
 * SPDX-License-Identifier: MIT
 */
#include "import/format/breathing.h"

#include <stdlib.h>
#include <string.h>

#include "base/number.h"
#include "import/format/tokens.h"

/* Oxygen of a mix named by a word alone; 0: numbers must follow. */
struct mix_word {
    const char *word;
    double o2_frac;
    bool helium;
    bool numbers;
};
/* clang-format off */
static const struct mix_word MIX_WORDS[] = {
    {"air", 0.21, false, false}, {"luft", 0.21, false, false}, {"aire", 0.21, false, false},
    {"aria", 0.21, false, false}, {"lucht", 0.21, false, false},
    {"oxygen", 1, false, false}, {"o2", 1, false, false}, {"sauerstoff", 1, false, false}, {"oxygene", 1, false, false},
    {"oxigeno", 1, false, false}, {"ossigeno", 1, false, false}, {"zuurstof", 1, false, false},
    {"nitrox", 0, false, true}, {"ean", 0, false, true}, {"eanx", 0, false, true}, {"nx", 0, false, true},
    {"nitroxe", 0, false, true},
    {"trimix", 0, true, true}, {"tx", 0, true, true}, {"tmx", 0, true, true}, {"heliox", 0, true, true},
    {"hx", 0, true, true},
};
/* clang-format on */

static const struct mix_word *mix_word(const char *word, size_t n)
{
    for (size_t i = 0; i < sizeof MIX_WORDS / sizeof MIX_WORDS[0]; i++) {
        if (strlen(MIX_WORDS[i].word) == n && strncmp(MIX_WORDS[i].word, word, n) == 0) {
            return &MIX_WORDS[i];
        }
    }
    return NULL;
}

/* Words and numbers of a name; numbers in percent. */
struct mix_parts {
    const struct mix_word *word;
    int numbers[2];
    int count;
    bool odd;
};

static void add_number(struct mix_parts *parts, const char *digits)
{
    int value = 0;
    if (parts->count == 2 || strlen(digits) > 3) {
        parts->odd = true;
        return;
    }
    for (; *digits != '\0'; digits++) {
        value = value * 10 + (*digits - '0');
    }
    parts->numbers[parts->count++] = value;
}

static void add_token(struct mix_parts *parts, const char *token)
{
    if (strcmp(token, "%") == 0) {
        return;
    }
    size_t letters = strcspn(token, "0123456789");
    if (letters > 0 && strcmp(token, "o2") != 0) {
        const struct mix_word *word = mix_word(token, letters);
        parts->odd = parts->odd || word == NULL || parts->word != NULL;
        parts->word = word;
        token += letters;
    } else if (letters > 0) {
        /* "O2" alone is oxygen; "32 % O2" is a nitrox. */
        parts->word = parts->count == 0 && parts->word == NULL ? mix_word(token, strlen(token)) : parts->word;
        return;
    }
    if (*token != '\0') {
        parts->odd = parts->odd || token[strspn(token, "0123456789")] != '\0';
        if (!parts->odd) {
            add_number(parts, token);
        }
    }
}

/* A number alone: a fraction with a point, or percent. "1" to "4" are more likely the number of a tank. */
static bool number_alone(const char *text, double *o2_frac)
{
    double value;
    if (!plmi_number_parse(text, strlen(text), strchr(text, ',') != NULL ? ',' : '.', &value)) {
        return false;
    }
    bool point = strpbrk(text, ".,") != NULL;
    *o2_frac = point && value <= 1 ? value : value >= 5 && value <= 100 ? value / 100 : 0;
    return true;
}

bool plmi_mix_name_parse(const char *text, double *o2_frac, double *he_frac)
{
    struct plmi_tokens tokens;
    struct mix_parts parts = {0};
    if (number_alone(text, o2_frac)) {
        *he_frac = 0;
        return *o2_frac > 0;
    }
    if (strpbrk(text, ".,") != NULL) {
        return false;
    }
    plmi_tokens_split(&tokens, text);
    for (size_t i = 0; i < tokens.count; i++) {
        add_token(&parts, tokens.token[i]);
    }
    if (parts.odd || tokens.count == 0 || tokens.dropped > 0) {
        return false;
    }
    if (parts.count == 0) {
        if (parts.word == NULL || parts.word->numbers) {
            return false;
        }
        *o2_frac = parts.word->o2_frac;
        *he_frac = 0;
        return true;
    }
    if (parts.word != NULL && (!parts.word->numbers || parts.word->helium != (parts.count == 2))) {
        bool ratio_nitrox = parts.word->numbers && !parts.word->helium && parts.count == 2 &&
                            parts.numbers[0] + parts.numbers[1] == 100;
        if (!ratio_nitrox) {
            return false;
        }
        parts.count = 1;
        parts.numbers[1] = 0;
    }
    if (parts.numbers[0] <= 0 || parts.numbers[0] + parts.numbers[1] > 100) {
        return false;
    }
    *o2_frac = parts.numbers[0] / 100.0;
    *he_frac = parts.count == 2 ? parts.numbers[1] / 100.0 : 0;
    return true;
}

static const struct {
    const char *word;
    enum plm_mode mode;
    bool apnoe;
} MODES[] = {
    {"open", PLM_MODE_OPEN, false},
    {"oc", PLM_MODE_OPEN, false},
    {"opencircuit", PLM_MODE_OPEN, false},
    {"openscuba", PLM_MODE_OPEN, false},
    {"bailout", PLM_MODE_OPEN, false},
    {"scuba", PLM_MODE_OPEN, false},
    {"offen", PLM_MODE_OPEN, false},
    {"ouvert", PLM_MODE_OPEN, false},
    {"circuitouvert", PLM_MODE_OPEN, false},
    {"abierto", PLM_MODE_OPEN, false},
    {"circuitoabierto", PLM_MODE_OPEN, false},
    {"aperto", PLM_MODE_OPEN, false},
    {"circuitoaperto", PLM_MODE_OPEN, false},
    {"opencircuitbailout", PLM_MODE_OPEN, false},
    {"closed", PLM_MODE_CLOSED, false},
    {"cc", PLM_MODE_CLOSED, false},
    {"ccr", PLM_MODE_CLOSED, false},
    {"closedcircuit", PLM_MODE_CLOSED, false},
    {"closedloop", PLM_MODE_CLOSED, false},
    {"loop", PLM_MODE_CLOSED, false},
    {"rebreather", PLM_MODE_CLOSED, false},
    {"geschlossen", PLM_MODE_CLOSED, false},
    {"ferme", PLM_MODE_CLOSED, false},
    {"circuitferme", PLM_MODE_CLOSED, false},
    {"cerrado", PLM_MODE_CLOSED, false},
    {"circuitocerrado", PLM_MODE_CLOSED, false},
    {"chiuso", PLM_MODE_CLOSED, false},
    {"circuitochiuso", PLM_MODE_CLOSED, false},
    {"gesloten", PLM_MODE_CLOSED, false},
    {"semiclosed", PLM_MODE_SEMICLOSED, false},
    {"sc", PLM_MODE_SEMICLOSED, false},
    {"scr", PLM_MODE_SEMICLOSED, false},
    {"pscr", PLM_MODE_SEMICLOSED, false},
    {"semiclosedcircuit", PLM_MODE_SEMICLOSED, false},
    {"halbgeschlossen", PLM_MODE_SEMICLOSED, false},
    {"semiferme", PLM_MODE_SEMICLOSED, false},
    {"semicerrado", PLM_MODE_SEMICLOSED, false},
    {"semichiuso", PLM_MODE_SEMICLOSED, false},
    {"halfgesloten", PLM_MODE_SEMICLOSED, false},
    {"apnoe", PLM_MODE_OPEN, true},
    {"apnea", PLM_MODE_OPEN, true},
    {"apnee", PLM_MODE_OPEN, true},
    {"freedive", PLM_MODE_OPEN, true},
    {"breathhold", PLM_MODE_OPEN, true},
};

bool plmi_mode_parse(const char *text, enum plm_mode *mode, bool *apnoe)
{
    struct plmi_tokens tokens;
    char joined[64] = "";
    plmi_tokens_split(&tokens, text);
    for (size_t i = 0; i < tokens.count; i++) {
        if (strlen(joined) + strlen(tokens.token[i]) + 1 > sizeof joined) {
            return false;
        }
        memcpy(joined + strlen(joined), tokens.token[i], strlen(tokens.token[i]) + 1);
    }
    for (size_t i = 0; i < sizeof MODES / sizeof MODES[0]; i++) {
        if (strcmp(MODES[i].word, joined) == 0) {
            *mode = MODES[i].mode;
            *apnoe = MODES[i].apnoe;
            return true;
        }
    }
    return false;
}

void plmi_mix_use_parse(const char *word, enum plm_mix_use *use)
{
    static const struct {
        const char *word;
        enum plm_mix_use use;
    } uses[] = {{"diluent", PLM_MIX_USE_DILUENT}, {"bailout", PLM_MIX_USE_BAILOUT}, {"deco", PLM_MIX_USE_DECO}};
    for (size_t i = 0; i < sizeof uses / sizeof uses[0]; i++) {
        *use = strcmp(uses[i].word, word) == 0 ? uses[i].use : *use;
    }
}
