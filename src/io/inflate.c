/*
 * Gzip (RFC 1952) opened on the way. What was read before damage is given out first;
 * the damage is reported behind it. Must not trust any length in the stream.
 * SPDX-License-Identifier: MIT
 */
#include "io/inflate.h"

#include <stdlib.h>
#include <string.h>
#include <zlib.h>

enum { INPUT_BYTES = 65536, OUTPUT_BYTES = 65536, WINDOW_GZIP = 15 + 16, RATIO_FROM_BYTES = 1048576, MB = 1000000 };

struct plmi_inflate {
    z_stream stream;
    struct plmi_raw *raw;
    double ratio_max, bytes_max;
    uint64_t in, out; /* bytes taken and given */
    bool between;     /* a member has ended, the next has not begun */
    bool raw_ended;
    enum plm_status pending; /* reported after the bytes before it were given */
    size_t output_at, output_end;
    unsigned char input[INPUT_BYTES];
    /* Opened in pieces of our own, so that bounds and damage show at the same byte whatever piece is asked for. */
    unsigned char output[OUTPUT_BYTES];
};

static enum plm_status fail_memory(struct plmi_raw *raw)
{
    return plmi_raw_no_memory(raw, "to open the compressed stream");
}

enum plm_status plmi_inflate_open(struct plmi_inflate **out, struct plmi_raw *raw, const struct plm_rules *rules)
{
    struct plmi_inflate *state = calloc(1, sizeof *state);
    if (state == NULL) {
        return fail_memory(raw);
    }
    state->raw = raw;
    state->ratio_max = rules->inflate_ratio_max;
    state->bytes_max = rules->file_max_mb * MB;
    if (inflateInit2(&state->stream, WINDOW_GZIP) != Z_OK) {
        free(state);
        return fail_memory(raw);
    }
    *out = state;
    return PLM_STATUS_OK;
}

/* More raw bytes where none are left. Returns: OK, or an error; raw_ended is set at the end. */
static enum plm_status fill(struct plmi_inflate *state)
{
    if (state->stream.avail_in > 0 || state->raw_ended) {
        return PLM_STATUS_OK;
    }
    size_t got = 0;
    enum plm_status status = plmi_raw_read(state->raw, state->input, sizeof state->input, &got);
    if (status == PLM_STATUS_END) {
        state->raw_ended = true;
        return PLM_STATUS_OK;
    }
    state->stream.next_in = state->input;
    state->stream.avail_in = (uInt)got;
    state->in += got;
    return status;
}

static enum plm_status fail_damaged(const struct plmi_inflate *state, const char *what)
{
    plmi_raw_tell_once(state->raw, PLM_LEVEL_ERROR, PLM_DIAG_GZIP,
                       "the compressed stream is %s after %llu bytes were read out of it; reading stops there", what,
                       (unsigned long long)state->out);
    return PLM_STATUS_INPUT;
}

/* Behind a member: another one, padding with zeros, the end, or something that is none of them. */
static enum plm_status start_member(struct plmi_inflate *state)
{
    bool padded = false;
    for (;;) {
        enum plm_status status = fill(state);
        if (status != PLM_STATUS_OK) {
            return status;
        }
        if (state->raw_ended && state->stream.avail_in == 0) {
            return PLM_STATUS_END;
        }
        if (*state->stream.next_in != 0) {
            break;
        }
        padded = true;
        state->stream.next_in++;
        state->stream.avail_in--;
    }
    if (padded || *state->stream.next_in != 0x1f) {
        plmi_raw_tell_once(state->raw, PLM_LEVEL_WARNING, PLM_DIAG_GZIP,
                           "bytes behind the compressed stream are not compressed; not read");
        return PLM_STATUS_END;
    }
    state->between = false;
    return inflateReset(&state->stream) == Z_OK ? PLM_STATUS_OK : fail_damaged(state, "damaged");
}

static enum plm_status check_bounds(const struct plmi_inflate *state)
{
    double in = (double)(state->in - state->stream.avail_in);
    double out = (double)state->out;
    if (out > state->bytes_max) {
        plmi_raw_tell_once(state->raw, PLM_LEVEL_ERROR, PLM_DIAG_LIMIT,
                           "larger than %lld MB when opened (rule file_max_mb); reading stops there",
                           (long long)(state->bytes_max / MB));
        return PLM_STATUS_LIMIT;
    }
    if (out > RATIO_FROM_BYTES && out > state->ratio_max * in) {
        plmi_raw_tell_once(state->raw, PLM_LEVEL_ERROR, PLM_DIAG_LIMIT,
                           "opens to more than %lld times its size (rule inflate_ratio_max); reading stops there",
                           (long long)state->ratio_max);
        return PLM_STATUS_LIMIT;
    }
    return PLM_STATUS_OK;
}

/* One call of zlib. Returns: OK, or what is to be reported behind the bytes it gave. */
static enum plm_status step(struct plmi_inflate *state)
{
    enum plm_status status = state->between ? start_member(state) : fill(state);
    if (status != PLM_STATUS_OK) {
        return status;
    }
    bool ended = state->raw_ended && state->stream.avail_in == 0;
    uInt room = state->stream.avail_out;
    int code = inflate(&state->stream, Z_NO_FLUSH);
    state->out += room - state->stream.avail_out;
    switch (code) {
    case Z_STREAM_END: state->between = true; return check_bounds(state);
    case Z_OK:
    case Z_BUF_ERROR:
        if (ended && state->stream.avail_out == room) {
            return fail_damaged(state, "cut short");
        }
        return check_bounds(state);
    case Z_MEM_ERROR: return fail_memory(state->raw);
    default: return fail_damaged(state, "damaged");
    }
}

static void refill(struct plmi_inflate *state)
{
    state->stream.next_out = state->output;
    state->stream.avail_out = OUTPUT_BYTES;
    while (state->pending == PLM_STATUS_OK && state->stream.avail_out > 0) {
        state->pending = step(state);
    }
    state->output_at = 0;
    state->output_end = OUTPUT_BYTES - state->stream.avail_out;
}

enum plm_status plmi_inflate_read(struct plmi_inflate *state, void *buffer, size_t capacity, size_t *got)
{
    if (state->output_at == state->output_end && state->pending == PLM_STATUS_OK) {
        refill(state);
    }
    size_t left = state->output_end - state->output_at;
    *got = left < capacity ? left : capacity;
    memcpy(buffer, state->output + state->output_at, *got);
    state->output_at += *got;
    return *got > 0 ? PLM_STATUS_OK : state->pending;
}

void plmi_inflate_reset(struct plmi_inflate *state)
{
    (void)inflateReset(&state->stream);
    state->stream.avail_in = 0;
    state->in = 0;
    state->out = 0;
    state->output_at = 0;
    state->output_end = 0;
    state->between = false;
    state->raw_ended = false;
    state->pending = PLM_STATUS_OK;
}

void plmi_inflate_free(struct plmi_inflate *state)
{
    if (state != NULL) {
        (void)inflateEnd(&state->stream);
        free(state);
    }
}
