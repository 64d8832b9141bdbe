/*
 * Mutates UDDF by its elements: copied, moved, dropped, swapped, nested, renamed, added; texts and attributes replaced.
 * One time in four libFuzzer's own mutations, so that bytes are tried too.
 * SPDX-License-Identifier: MIT
 */
#include <stdio.h>
#include <string.h>

#include "fuzz/mutation.h"

#define TAGS_MOST 4000

size_t LLVMFuzzerMutate(uint8_t *data, size_t size, size_t max);
size_t LLVMFuzzerCustomMutator(uint8_t *data, size_t size, size_t max, unsigned int seed);

static const char *const NAMES[] = {
#define PLMI_UDDF_ELEMENT(name) #name,
#include "import/uddf/elements.def"
#undef PLMI_UDDF_ELEMENT
};
static const char *const ATTRIBUTES[] = {"id",   "ref",   "type",    "setby",         "duration", "decodepth",
                                         "kind", "level", "version", "startdivemode", "startmix", "value"};

struct tags {
    struct span tag[TAGS_MOST];
    size_t count;
};

static void tags_find(const struct mutation *mutation, struct tags *tags)
{
    tags->count = 0;
    for (size_t at = 0; at < mutation->size && tags->count < TAGS_MOST; at++) {
        if (mutation->bytes[at] != '<') {
            continue;
        }
        const uint8_t *end = memchr(mutation->bytes + at, '>', mutation->size - at);
        if (end == NULL) {
            return;
        }
        tags->tag[tags->count++] = (struct span){at, (size_t)(end - mutation->bytes) + 1};
        at = (size_t)(end - mutation->bytes);
    }
}

static int closes(const struct mutation *mutation, struct span tag)
{
    return mutation->bytes[tag.from + 1] == '/';
}

static int empty(const struct mutation *mutation, struct span tag)
{
    return tag.to - tag.from > 2 && mutation->bytes[tag.to - 2] == '/';
}

/* A random element with all that is in it; a lone tag where it is not closed. */
static struct span element(struct mutation *mutation, const struct tags *tags)
{
    size_t first = mutation_below(mutation, tags->count);
    struct span whole = tags->tag[first];
    if (closes(mutation, whole) || empty(mutation, whole)) {
        return whole;
    }
    long depth = 1;
    for (size_t i = first + 1; i < tags->count; i++) {
        depth += closes(mutation, tags->tag[i]) ? -1 : empty(mutation, tags->tag[i]) ? 0 : 1;
        if (depth == 0) {
            return (struct span){whole.from, tags->tag[i].to};
        }
    }
    return whole;
}

/* A place between two tags, or before or behind one. */
static size_t place(struct mutation *mutation, const struct tags *tags)
{
    struct span tag = tags->tag[mutation_below(mutation, tags->count)];
    return mutation_once_in(mutation, 2) ? tag.from : tag.to;
}

static const char *name(struct mutation *mutation)
{
    return NAMES[mutation_below(mutation, MUTATION_COUNT(NAMES))];
}

static int copy(struct mutation *mutation, const struct tags *tags)
{
    return mutation_copy(mutation, element(mutation, tags), place(mutation, tags));
}

static int drop(struct mutation *mutation, const struct tags *tags)
{
    return mutation_splice(mutation, element(mutation, tags), "", 0);
}

static int drop_tag(struct mutation *mutation, const struct tags *tags)
{
    return mutation_splice(mutation, tags->tag[mutation_below(mutation, tags->count)], "", 0);
}

static int swap(struct mutation *mutation, const struct tags *tags)
{
    return mutation_swap(mutation, element(mutation, tags), element(mutation, tags));
}

/* Moved by copying first, so that what is moved may land inside of itself. */
static int move(struct mutation *mutation, const struct tags *tags)
{
    struct span from = element(mutation, tags);
    size_t to = place(mutation, tags), n = from.to - from.from;
    if (!mutation_copy(mutation, from, to)) {
        return 0;
    }
    size_t shift = to <= from.from ? n : 0;
    return mutation_splice(mutation, (struct span){from.from + shift, from.to + shift}, "", 0);
}

static int nest(struct mutation *mutation, const struct tags *tags)
{
    struct span inside = element(mutation, tags);
    char text[128];
    const char *around = name(mutation);
    (void)snprintf(text, sizeof text, "</%s>", around);
    if (!mutation_splice_text(mutation, (struct span){inside.to, inside.to}, text)) {
        return 0;
    }
    (void)snprintf(text, sizeof text, "<%s id='%s'>", around, mutation_once_in(mutation, 2) ? "m1" : "a");
    return mutation_splice_text(mutation, (struct span){inside.from, inside.from}, text);
}

static int add(struct mutation *mutation, const struct tags *tags)
{
    char text[256];
    const char *added = name(mutation);
    const char *attribute = ATTRIBUTES[mutation_below(mutation, MUTATION_COUNT(ATTRIBUTES))];
    const char *value = mutation_value(mutation);
    if (mutation_once_in(mutation, 2)) {
        (void)snprintf(text, sizeof text, "<%s>%s</%s>", added, value, added);
    } else {
        (void)snprintf(text, sizeof text, "<%s %s='%s'/>", added, attribute, value);
    }
    size_t at = place(mutation, tags);
    return mutation_splice_text(mutation, (struct span){at, at}, text);
}

/* The text behind a tag, up to the next. */
static int retext(struct mutation *mutation, const struct tags *tags)
{
    size_t at = mutation_below(mutation, tags->count);
    size_t to = at + 1 < tags->count ? tags->tag[at + 1].from : mutation->size;
    return mutation_splice_text(mutation, (struct span){tags->tag[at].to, to}, mutation_value(mutation));
}

/* What stands in quotes in a tag. */
static int reattribute(struct mutation *mutation, const struct tags *tags)
{
    struct span tag = tags->tag[mutation_below(mutation, tags->count)];
    for (size_t i = tag.from; i < tag.to; i++) {
        uint8_t quote = mutation->bytes[i];
        if (quote == '\'' || quote == '"') {
            const uint8_t *end = memchr(mutation->bytes + i + 1, quote, tag.to - i - 1);
            struct span inside = {i + 1, end == NULL ? i + 1 : (size_t)(end - mutation->bytes)};
            return end != NULL && mutation_splice_text(mutation, inside, mutation_value(mutation));
        }
    }
    return 0;
}

static int rename_tag(struct mutation *mutation, const struct tags *tags)
{
    struct span tag = tags->tag[mutation_below(mutation, tags->count)];
    size_t from = tag.from + 1 + (size_t)closes(mutation, tag), to = from;
    while (to < tag.to && strchr(" \t\r\n/>", mutation->bytes[to]) == NULL) {
        to++;
    }
    return mutation_splice_text(mutation, (struct span){from, to}, name(mutation));
}

typedef int (*mutate)(struct mutation *mutation, const struct tags *tags);
static const mutate MUTATIONS[] = {copy, copy, drop,   drop_tag, swap,   move,        move,      nest,
                                   add,  add,  retext, retext,   retext, reattribute, rename_tag};

size_t LLVMFuzzerCustomMutator(uint8_t *data, size_t size, size_t max, unsigned int seed)
{
    static struct tags tags;
    struct mutation mutation = {data, size, max, seed};
    int done = 0;
    if (mutation_once_in(&mutation, 4)) {
        return LLVMFuzzerMutate(data, size, max);
    }
    for (size_t tries = 1 + mutation_below(&mutation, 4); tries > 0; tries--) {
        tags_find(&mutation, &tags);
        done |= tags.count > 0 && MUTATIONS[mutation_below(&mutation, MUTATION_COUNT(MUTATIONS))](&mutation, &tags);
    }
    return done ? mutation.size : LLVMFuzzerMutate(data, mutation.size, max);
}
