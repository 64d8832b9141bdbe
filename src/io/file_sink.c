/*
 * The file sink: collects small writes, compresses where the name ends in .gz.
 * The same bytes in give the same bytes out: no time, no name in the gzip header.
 * SPDX-License-Identifier: MIT
 */
#include <errno.h>
#include <plimsoll/sink.h>
#include <stdlib.h>
#include <string.h>
#include <zlib.h>

#include "base/diags.h"
#include "io/part_file.h"
#include "io/system_text.h"

enum { BUFFER_BYTES = 65536, WINDOW_GZIP = 15 + 16, MEMORY_LEVEL = 8 };

struct plm_file_sink {
    struct plmi_part_file part;
    struct plmi_diags diags;
    enum plm_status status; /* the first failure stays */
    bool compressed;
    z_stream stream;
    size_t count; /* bytes in buffer */
    unsigned char buffer[BUFFER_BYTES];
    char path[];
};

static enum plm_status fail(struct plm_file_sink *file, int number)
{
    if (file->status == PLM_STATUS_OK) {
        file->status = number == ENOMEM ? PLM_STATUS_MEMORY : PLM_STATUS_IO;
        plmi_diags_add(&file->diags, PLM_LEVEL_ERROR, number == ENOMEM ? PLM_DIAG_MEMORY : PLM_DIAG_WRITE, 0, 0,
                       "cannot be written: %s", plmi_system_text(number));
    }
    return file->status;
}

static bool ends_in_gz(const char *path)
{
    size_t length = strlen(path);
    return length > 3 && strcmp(path + length - 3, ".gz") == 0;
}

static enum plm_status flush(struct plm_file_sink *file)
{
    if (file->count > 0 && file->status == PLM_STATUS_OK) {
        int error = plmi_part_file_write(&file->part, file->buffer, file->count);
        if (error != 0) {
            (void)fail(file, error);
        }
    }
    file->count = 0;
    return file->status;
}

/* Everything in `bytes` through the compressor; mode Z_FINISH ends the stream. */
static enum plm_status compress_bytes(struct plm_file_sink *file, const void *bytes, size_t count, int mode)
{
    const unsigned char *at = bytes;
    int code = Z_OK;
    do {
        uInt part = count < BUFFER_BYTES ? (uInt)count : BUFFER_BYTES;
        file->stream.next_in = (z_const Bytef *)at;
        file->stream.avail_in = part;
        do {
            file->stream.next_out = file->buffer + file->count;
            file->stream.avail_out = (uInt)(BUFFER_BYTES - file->count);
            code = deflate(&file->stream, mode);
            file->count = BUFFER_BYTES - file->stream.avail_out;
            if (file->count == BUFFER_BYTES) {
                (void)flush(file);
            }
        } while (file->status == PLM_STATUS_OK &&
                 (file->stream.avail_in > 0 || (mode == Z_FINISH && code != Z_STREAM_END)));
        at += part;
        count -= part;
    } while (count > 0 && file->status == PLM_STATUS_OK);
    return file->status;
}

static enum plm_status write_bytes(void *context, const void *bytes, size_t count)
{
    struct plm_file_sink *file = context;
    if (file->status != PLM_STATUS_OK || count == 0) {
        return file->status;
    }
    if (file->compressed) {
        return compress_bytes(file, bytes, count, Z_NO_FLUSH);
    }
    if (count > BUFFER_BYTES - file->count && flush(file) != PLM_STATUS_OK) {
        return file->status;
    }
    if (count > BUFFER_BYTES) {
        int error = plmi_part_file_write(&file->part, bytes, count);
        return error == 0 ? PLM_STATUS_OK : fail(file, error);
    }
    memcpy(file->buffer + file->count, bytes, count);
    file->count += count;
    return PLM_STATUS_OK;
}

static enum plm_status start(struct plm_file_sink *file)
{
    int error = plmi_part_file_open(&file->part, file->path);
    if (error != 0) {
        return fail(file, error);
    }
    if (ends_in_gz(file->path)) {
        int code = deflateInit2(&file->stream, Z_DEFAULT_COMPRESSION, Z_DEFLATED, WINDOW_GZIP, MEMORY_LEVEL,
                                Z_DEFAULT_STRATEGY);
        file->compressed = code == Z_OK;
        return code == Z_OK ? PLM_STATUS_OK : fail(file, ENOMEM);
    }
    return PLM_STATUS_OK;
}

enum plm_status plm_file_sink_open(struct plm_file_sink **out, const char *path, const struct plm_diag_sink *diag)
{
    *out = NULL;
    size_t size = strlen(path) + 1;
    struct plm_file_sink *file = calloc(1, sizeof *file + size);
    if (file == NULL) {
        const struct plmi_diags diags = {diag, path};
        return plmi_diags_no_memory(&diags, 0, "to write it");
    }
    memcpy(file->path, path, size);
    file->part.fd = -1;
    plmi_diags_init(&file->diags, diag, file->path);
    enum plm_status status = start(file);
    if (status != PLM_STATUS_OK) {
        plm_file_sink_free(file);
        return status;
    }
    *out = file;
    return PLM_STATUS_OK;
}

struct plm_sink plm_file_sink_get(struct plm_file_sink *file)
{
    return (struct plm_sink){write_bytes, file};
}

const char *plm_file_sink_part(const struct plm_file_sink *file)
{
    return file->part.part_path;
}

enum plm_status plm_file_sink_finish(struct plm_file_sink *file)
{
    if (file->compressed && file->status == PLM_STATUS_OK) {
        (void)compress_bytes(file, "", 0, Z_FINISH);
    }
    if (flush(file) == PLM_STATUS_OK) {
        int error = plmi_part_file_finish(&file->part);
        if (error != 0) {
            (void)fail(file, error);
        }
    }
    enum plm_status status = file->status;
    plm_file_sink_free(file);
    return status;
}

void plm_file_sink_free(struct plm_file_sink *file)
{
    if (file == NULL) {
        return;
    }
    plmi_part_file_drop(&file->part);
    if (file->compressed) {
        (void)deflateEnd(&file->stream);
    }
    free(file);
}
