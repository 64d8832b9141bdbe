/*
 * Names of persons in one form, by utf8proc. Must not know where names come from.
 * SPDX-License-Identifier: MIT
 */
#include <plimsoll/names.h>

#include <stdlib.h>
#include <string.h>
#include <utf8proc.h>

#include "base/text.h"
#include "base/utf8.h"

/* Source: The Unicode Standard 15.0, PropList.txt, White_Space. */
static const struct {
    unsigned long from, to;
} WHITE[] = {
    {0x09, 0x0d},     {0x20, 0x20},     {0x85, 0x85},     {0xa0, 0xa0},     {0x1680, 0x1680},
    {0x2000, 0x200a}, {0x2028, 0x2029}, {0x202f, 0x202f}, {0x205f, 0x205f}, {0x3000, 0x3000},
};

static bool is_white(unsigned long code)
{
    for (size_t i = 0; i < sizeof WHITE / sizeof WHITE[0]; i++) {
        if (code >= WHITE[i].from && code <= WHITE[i].to) {
            return true;
        }
    }
    return false;
}

/* Valid UTF-8, trimmed, white space folded. */
static void fold_white(struct plmi_text *out, const char *name)
{
    bool pending = false;
    for (size_t left = strlen(name); left > 0;) {
        size_t length = plmi_utf8_length(name, left);
        bool white = length > 0 && is_white(plmi_utf8_code(name, length));
        if (!white) {
            plmi_text_puts(out, pending && out->count > 0 ? " " : "");
            plmi_text_add(out, length > 0 ? name : "\xef\xbf\xbd", length > 0 ? length : 3);
        }
        pending = white;
        length = length > 0 ? length : 1;
        name += length;
        left -= length;
    }
}

/* White space is folded behind the mapping too, as that may bring some or take what stood between. */
static char *mapped(const char *name, int options)
{
    struct plmi_text clean, folded;
    utf8proc_uint8_t *form = NULL;
    plmi_text_init(&clean);
    plmi_text_init(&folded);
    plmi_text_puts(&folded, "");
    fold_white(&clean, name == NULL ? "" : name);
    bool done = !clean.failed &&
                utf8proc_map((const utf8proc_uint8_t *)(clean.bytes == NULL ? "" : clean.bytes),
                             (utf8proc_ssize_t)clean.count, &form, (utf8proc_option_t)(UTF8PROC_STABLE | options)) >= 0;
    if (done) {
        fold_white(&folded, (const char *)form);
    }
    free(form);
    plmi_text_free(&clean);
    if (done && !folded.failed) {
        return folded.bytes;
    }
    plmi_text_free(&folded);
    return NULL;
}

char *plm_name_normal(const char *name)
{
    return mapped(name, UTF8PROC_COMPOSE);
}

/* Folding a decomposed text may leave it decomposed otherwise, hence once more. */
static char *key_of(const char *name, int options)
{
    char *once = mapped(name, UTF8PROC_COMPOSE | UTF8PROC_CASEFOLD | UTF8PROC_IGNORE | options);
    char *twice = once == NULL ? NULL : mapped(once, UTF8PROC_COMPOSE | UTF8PROC_CASEFOLD | UTF8PROC_IGNORE | options);
    free(once);
    return twice;
}

char *plm_name_key(const char *name)
{
    return key_of(name, 0);
}

/* The next letter of a name in ASCII, folded: 0 at its end. */
static char ascii_next(const char **at)
{
    const char *s = *at;
    char c = *s;
    if (c != '\0' && is_white((unsigned char)c)) {
        while (*s != '\0' && is_white((unsigned char)*s)) {
            s++;
        }
        *at = s;
        return *s == '\0' ? '\0' : ' ';
    }
    *at = c == '\0' ? s : s + 1;
    return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
}

static const char *skip_white(const char *s)
{
    while (*s != '\0' && is_white((unsigned char)*s)) {
        s++;
    }
    return s;
}

static bool all_ascii(const char *s)
{
    while (*s != '\0' && (unsigned char)*s < 0x80) {
        s++;
    }
    return *s == '\0';
}

/* The same without memory and haste, as tables of many dives are compared by names. */
static bool same_ascii(const char *a, const char *b)
{
    char one, other;
    a = skip_white(a);
    b = skip_white(b);
    do {
        one = ascii_next(&a);
        other = ascii_next(&b);
    } while (one == other && one != '\0');
    return one == other;
}

static bool same_keys(const char *a, const char *b, int options, bool otherwise)
{
    char *one = key_of(a, options), *other = key_of(b, options);
    bool same = one != NULL && other != NULL ? strcmp(one, other) == 0 : otherwise;
    free(one);
    free(other);
    return same;
}

bool plm_name_same(const char *a, const char *b)
{
    if (a == NULL || b == NULL) {
        return false;
    }
    bool bytes = strcmp(a, b) == 0;
    return bytes || (all_ascii(a) && all_ascii(b) ? same_ascii(a, b) : same_keys(a, b, 0, bytes));
}

bool plm_name_alike(const char *a, const char *b)
{
    return a != NULL && b != NULL && !plm_name_same(a, b) && same_keys(a, b, UTF8PROC_STRIPMARK, false);
}
