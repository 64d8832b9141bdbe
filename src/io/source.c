/*
 * The byte source: raw bytes, gzip opened where the bytes say so, a window to look ahead.
 * Must not know any format.
 * SPDX-License-Identifier: MIT
 */
#include <plimsoll/source.h>

#include <assert.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "io/digest.h"
#include "io/inflate.h"
#include "io/raw.h"

enum { WINDOW_BYTES = 65536, MB = 1000000 };

struct plm_source {
    struct plmi_raw raw;
    struct plmi_inflate *inflate; /* NULL: plain */
    struct plmi_diags diags;
    enum plm_status pending; /* what comes behind the window */
    unsigned char *window;   /* [WINDOW_BYTES] looked at, not taken; NULL before a first peek */
    size_t window_at, window_end;
    char name[];
};

static struct plm_source *create(const char *name, const struct plm_diag_sink *sink)
{
    size_t size = strlen(name) + 1;
    struct plm_source *source = calloc(1, sizeof *source + size);
    struct plmi_diags diags;
    if (source == NULL) {
        plmi_diags_init(&diags, sink, name);
        (void)plmi_diags_no_memory(&diags, 0, "to read the input");
        return NULL;
    }
    memcpy(source->name, name, size);
    plmi_diags_init(&source->diags, sink, source->name);
    source->raw.fd = -1;
    return source;
}

/* Gzip is known by its first two bytes (RFC 1952, 2.3.1). */
static enum plm_status look_for_gzip(struct plm_source *source, const struct plm_rules *rules)
{
    unsigned char first[2] = {0, 0};
    size_t count = 0;
    enum plm_status status = PLM_STATUS_OK;
    while (status == PLM_STATUS_OK && count < sizeof first) {
        size_t got = 0;
        status = plmi_raw_read(&source->raw, first + count, sizeof first - count, &got);
        count += got;
    }
    if (status != PLM_STATUS_OK && status != PLM_STATUS_END) {
        return status;
    }
    status = plmi_raw_rewind(&source->raw);
    if (status == PLM_STATUS_OK && first[0] == 0x1f && first[1] == 0x8b) {
        status = plmi_inflate_open(&source->inflate, &source->raw, rules);
    }
    return status;
}

/* Gives the source out, or frees it on an error. */
static enum plm_status deliver(struct plm_source **out, struct plm_source *source, enum plm_status status)
{
    if (status != PLM_STATUS_OK) {
        plm_source_free(source);
        source = NULL;
    }
    *out = source;
    return status;
}

typedef enum plm_status raw_open(struct plmi_raw *raw, const char *path, uint64_t max_bytes,
                                 const struct plmi_diags *diags);

static enum plm_status open_path(struct plm_source **out, raw_open *open, const char *path, const char *name,
                                 const struct plm_rules *rules, const struct plm_diag_sink *sink)
{
    *out = NULL;
    struct plm_source *source = create(name == NULL ? path : name, sink);
    if (source == NULL) {
        return PLM_STATUS_MEMORY;
    }
    uint64_t max_bytes = (uint64_t)(rules->file_max_mb * MB);
    enum plm_status status = open(&source->raw, path, max_bytes, &source->diags);
    if (status == PLM_STATUS_OK) {
        status = look_for_gzip(source, rules);
    }
    return deliver(out, source, status);
}

enum plm_status plm_source_open_file(struct plm_source **out, const char *path, const char *name,
                                     const struct plm_rules *rules, const struct plm_diag_sink *sink)
{
    return open_path(out, plmi_raw_open_file, path, name, rules, sink);
}

enum plm_status plm_source_open_regular(struct plm_source **out, const char *path, const struct plm_rules *rules,
                                        const struct plm_diag_sink *sink)
{
    return open_path(out, plmi_raw_open_regular, path, NULL, rules, sink);
}

enum plm_status plm_source_open_memory(struct plm_source **out, const void *bytes, size_t count, const char *name,
                                       const struct plm_rules *rules, const struct plm_diag_sink *sink)
{
    *out = NULL;
    struct plm_source *source = create(name == NULL ? "memory" : name, sink);
    if (source == NULL) {
        return PLM_STATUS_MEMORY;
    }
    plmi_raw_open_memory(&source->raw, bytes, count, &source->diags);
    return deliver(out, source, look_for_gzip(source, rules));
}

static enum plm_status pull(struct plm_source *source, void *buffer, size_t capacity, size_t *got)
{
    return source->inflate != NULL ? plmi_inflate_read(source->inflate, buffer, capacity, got)
                                   : plmi_raw_read(&source->raw, buffer, capacity, got);
}

enum plm_status plm_source_read(struct plm_source *source, void *buffer, size_t capacity, size_t *got)
{
    assert(capacity > 0);
    size_t waiting = source->window_end - source->window_at;
    *got = waiting < capacity ? waiting : capacity;
    if (*got > 0) {
        memcpy(buffer, source->window + source->window_at, *got);
        source->window_at += *got;
        return PLM_STATUS_OK;
    }
    if (source->pending == PLM_STATUS_OK) {
        source->pending = pull(source, buffer, capacity, got);
    }
    return source->pending;
}

enum plm_status plm_source_peek(struct plm_source *source, const unsigned char **bytes, size_t *count)
{
    *bytes = NULL;
    *count = 0;
    if (source->window == NULL) {
        source->window = malloc(WINDOW_BYTES);
    }
    if (source->window == NULL) {
        return plmi_diags_no_memory(&source->diags, 0, "to look ahead");
    }
    size_t waiting = source->window_end - source->window_at;
    memmove(source->window, source->window + source->window_at, waiting);
    source->window_at = 0;
    while (source->pending == PLM_STATUS_OK && waiting < WINDOW_BYTES) {
        size_t got = 0;
        source->pending = pull(source, source->window + waiting, WINDOW_BYTES - waiting, &got);
        waiting += got;
    }
    source->window_end = waiting;
    *bytes = source->window;
    *count = waiting;
    return waiting > 0 || source->pending == PLM_STATUS_END ? PLM_STATUS_OK : source->pending;
}

enum plm_status plm_source_rewind(struct plm_source *source)
{
    source->window_at = 0;
    source->window_end = 0;
    source->pending = plmi_raw_rewind(&source->raw);
    if (source->inflate != NULL) {
        plmi_inflate_reset(source->inflate);
    }
    return source->pending;
}

const char *plm_source_name(const struct plm_source *source)
{
    return source->name;
}

enum plm_status plm_source_sha256(struct plm_source *source, char hex[65])
{
    unsigned char buffer[16384];
    unsigned char bytes[PLMI_DIGEST_BYTES];
    struct plmi_digest digest;
    plmi_digest_init(&digest);
    enum plm_status status = plmi_raw_rewind(&source->raw);
    while (status == PLM_STATUS_OK) {
        size_t got = 0;
        status = plmi_raw_read(&source->raw, buffer, sizeof buffer, &got);
        plmi_digest_add(&digest, buffer, got);
    }
    plmi_digest_end(&digest, bytes);
    plmi_digest_hex(bytes, hex);
    enum plm_status rewound = plm_source_rewind(source);
    return status == PLM_STATUS_END ? rewound : status;
}

static enum plm_status bytes_collect(struct plm_source *source, struct plmi_text *bytes)
{
    char buffer[16384];
    enum plm_status status = plmi_raw_rewind(&source->raw);
    while (status == PLM_STATUS_OK) {
        size_t got = 0;
        status = plmi_raw_read(&source->raw, buffer, sizeof buffer, &got);
        plmi_text_add(bytes, buffer, got);
    }
    enum plm_status rewound = plm_source_rewind(source);
    return status == PLM_STATUS_END ? rewound : status;
}

enum plm_status plm_source_bytes(struct plm_source *source, void **bytes, size_t *count)
{
    struct plmi_text all;
    plmi_text_init(&all);
    plmi_text_add(&all, "", 0);
    enum plm_status status = bytes_collect(source, &all);
    if (status == PLM_STATUS_OK && (all.failed || all.bytes == NULL)) {
        (void)plmi_diags_no_memory(&source->diags, 0, "to keep the input");
        status = PLM_STATUS_MEMORY;
    }
    if (status != PLM_STATUS_OK) {
        plmi_text_free(&all);
    }
    *bytes = all.bytes;
    *count = all.count;
    return status;
}

void plm_source_free(struct plm_source *source)
{
    if (source != NULL) {
        plmi_inflate_free(source->inflate);
        plmi_raw_close(&source->raw);
        free(source->window);
        free(source);
    }
}
