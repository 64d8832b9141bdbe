/*
 * The decoder. Clean UTF-8 is passed on where it lies; everything else is converted
 * (iconv) or repaired in a buffer. Must not guess silently: what was decided is a note,
 * what was replaced a warning.
 * SPDX-License-Identifier: MIT
 */
#include "syntax/decode.h"

#include <errno.h>
#include <iconv.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "base/utf8.h"
#include "syntax/evidence.h"

enum { INPUT_BYTES = 65536, CONVERTED_BYTES = 4 * INPUT_BYTES, REPAIR_BYTES = 16384 };

#define REPLACEMENT  "\xef\xbf\xbd"
#define NO_CONVERTER ((iconv_t)-1)

struct plmi_decoder {
    struct plm_source *source;
    struct plmi_diags *diags;
    iconv_t converter; /* NO_CONVERTER: the bytes are UTF-8, or not decided yet */
    size_t unit_bytes;
    bool undecided; /* a table, all ASCII so far  */
    bool ended;
    bool partial;        /* bytes were no text, or read in another encoding than is declared */
    bool after_cr;       /* the last byte given was CR */
    long line;           /* of the next byte           */
    long reported_line;  /* last line a replacement was reported on */
    size_t input_count;  /* bytes in input not decoded */
    const char *pending; /* decoded, to be checked and given */
    size_t pending_count;
    char *converted; /* [CONVERTED_BYTES] NULL before it is needed */
    char *repaired;  /* [3 REPAIR_BYTES]  NULL before it is needed */
    char input[INPUT_BYTES];
};

static enum plm_status fail_memory(struct plmi_decoder *decoder)
{
    return plmi_diags_no_memory(decoder->diags, 0, "to decode the text");
}

static enum plm_status start_converter(struct plmi_decoder *decoder, const char *encoding, size_t unit_bytes)
{
    decoder->converter = iconv_open("UTF-8", encoding);
    decoder->unit_bytes = unit_bytes;
    if (decoder->converter == NO_CONVERTER) {
        return errno == ENOMEM ? fail_memory(decoder) : PLM_STATUS_INPUT;
    }
    decoder->converted = malloc(CONVERTED_BYTES);
    return decoder->converted == NULL ? fail_memory(decoder) : PLM_STATUS_OK;
}

/* A conversion that is asked for by the bytes themselves. */
static enum plm_status convert_found(struct plmi_decoder *decoder, const char *encoding, size_t unit_bytes)
{
    enum plm_status status = start_converter(decoder, encoding, unit_bytes);
    if (status == PLM_STATUS_OK) {
        plmi_diags_add(decoder->diags, PLM_LEVEL_NOTE, PLM_DIAG_ENCODING, 0, 0, "the text is %s; read as that",
                       encoding);
    } else if (status == PLM_STATUS_INPUT) {
        plmi_diags_add(decoder->diags, PLM_LEVEL_ERROR, PLM_DIAG_ENCODING, 0, 0,
                       "the text is %s, which this system cannot convert; not read", encoding);
    }
    return status;
}

/* The encoding that an XML declaration names, in bytes that are read as ASCII. */
static enum plm_status convert_declared(struct plmi_decoder *decoder, const char *name)
{
    if (plmi_text_same(name, "UTF-8") || plmi_text_same(name, "UTF8") || plmi_text_same(name, "US-ASCII") ||
        plmi_text_same(name, "ASCII")) {
        return PLM_STATUS_OK;
    }
    bool wide = plmi_text_starts(name, "UTF-16") || plmi_text_starts(name, "UTF-32") || plmi_text_starts(name, "UCS-");
    /* Windows-1252 has letters where ISO 8859-1 has control codes, which no text means. */
    bool latin1 = plmi_text_same(name, "ISO-8859-1") || plmi_text_same(name, "latin1");
    enum plm_status status = wide ? PLM_STATUS_INPUT : start_converter(decoder, latin1 ? "WINDOWS-1252" : name, 1);
    if (status == PLM_STATUS_INPUT) {
        decoder->partial = true;
        plmi_diags_add(decoder->diags, PLM_LEVEL_WARNING, PLM_DIAG_ENCODING, 1, 0,
                       "the encoding \"%s\" is declared, which %s; read as UTF-8", name,
                       wide ? "the bytes are not in" : "is not known here");
        status = PLM_STATUS_OK;
    }
    return status;
}

static enum plm_status choose(struct plmi_decoder *decoder, enum plmi_text_kind kind)
{
    const unsigned char *head = NULL;
    size_t count = 0;
    enum plm_status status = plm_source_peek(decoder->source, &head, &count);
    if (status != PLM_STATUS_OK || count == 0) {
        return status;
    }
    struct plmi_encoding found = plmi_encoding_find(head, count);
    char declared[PLMI_ENCODING_NAME_BYTES];
    bool is_declared = found.name == NULL && kind == PLMI_TEXT_XML && plmi_encoding_declared(head, count, declared);
    decoder->undecided = found.name == NULL && kind == PLMI_TEXT_TABLE;
    if (found.mark_bytes > 0) {
        size_t got = 0;
        status = plm_source_read(decoder->source, decoder->input, found.mark_bytes, &got);
    }
    if (status == PLM_STATUS_OK && found.name != NULL && found.unit_bytes > 1) {
        status = convert_found(decoder, found.name, found.unit_bytes);
    } else if (status == PLM_STATUS_OK && is_declared) {
        status = convert_declared(decoder, declared);
    }
    return status;
}

enum plm_status plmi_decoder_open(struct plmi_decoder **out, struct plm_source *source, enum plmi_text_kind kind,
                                  struct plmi_diags *diags)
{
    *out = NULL;
    struct plmi_decoder *decoder = calloc(1, sizeof *decoder);
    if (decoder == NULL) {
        return plmi_diags_no_memory(diags, 0, "to decode the text");
    }
    decoder->source = source;
    decoder->diags = diags;
    decoder->converter = NO_CONVERTER;
    decoder->unit_bytes = 1;
    decoder->line = 1;
    enum plm_status status = choose(decoder, kind);
    if (status != PLM_STATUS_OK) {
        plmi_decoder_free(decoder);
        return status;
    }
    *out = decoder;
    return PLM_STATUS_OK;
}

/* Bytes that stop a run of clean text: control bytes, and first bytes of longer sequences. */
static bool is_plain(unsigned char c)
{
    return (c >= 0x20 && c < 0x80) || c == '\n' || c == '\r' || c == '\t';
}

/* Length of the clean character at s, 0 where none stands. U+FFFE and U+FFFF are no characters (XML 1.0, 2.2). */
static size_t clean_character(const char *s, size_t n)
{
    if (is_plain((unsigned char)s[0])) {
        return 1;
    }
    size_t length = (unsigned char)s[0] < 0x80 ? 0 : plmi_utf8_length(s, n);
    bool none = length == 3 && memcmp(s, "\xef\xbf", 2) == 0 && (unsigned char)s[2] >= 0xbe;
    return none ? 0 : length;
}

/* Bytes from the start that are clean. Whole blocks first, in a loop that the compiler can spread. */
static size_t clean_length(const char *s, size_t n)
{
    enum { BLOCK = 32 };
    size_t at = 0;
    while (at < n) {
        while (n - at >= BLOCK) {
            unsigned char stop = 0;
            for (size_t i = 0; i < BLOCK; i++) {
                unsigned char c = (unsigned char)s[at + i];
                stop |= (unsigned char)((c >= 0x80) | ((c < 0x20) & (c != '\n') & (c != '\r') & (c != '\t')));
            }
            if (stop != 0) {
                break;
            }
            at += BLOCK;
        }
        size_t block_end = n - at >= BLOCK ? at + BLOCK : n;
        while (at < block_end) {
            size_t length = clean_character(s + at, n - at);
            if (length == 0) {
                return at;
            }
            at += length;
        }
    }
    return at;
}

/* Bytes at the end that begin a character which the next bytes may complete, at most 3. */
static size_t open_tail(const char *s, size_t n)
{
    for (size_t back = 1; back <= 3 && back <= n; back++) {
        unsigned char c = (unsigned char)s[n - back];
        if (c >= 0xc0) {
            size_t wanted = c >= 0xf0 ? 4 : c >= 0xe0 ? 3 : 2;
            return wanted > back ? back : 0;
        }
        if (c < 0x80) {
            return 0;
        }
    }
    return 0;
}

/* Line feeds, block by block in a loop that the compiler can spread. */
static size_t count_feeds(const char *s, size_t n)
{
    enum { BLOCK = 64 };
    size_t feeds = 0;
    size_t at = 0;
    for (; n - at >= BLOCK; at += BLOCK) {
        unsigned char block_feeds = 0;
        for (size_t i = 0; i < BLOCK; i++) {
            block_feeds = (unsigned char)(block_feeds + (s[at + i] == '\n'));
        }
        feeds += block_feeds;
    }
    for (; at < n; at++) {
        feeds += s[at] == '\n' ? 1 : 0;
    }
    return feeds;
}

static void count_lines(struct plmi_decoder *decoder, const char *s, size_t n)
{
    if (n == 0) {
        return;
    }
    if (!decoder->after_cr && memchr(s, '\r', n) == NULL) {
        decoder->line += (long)count_feeds(s, n);
        return;
    }
    for (size_t i = 0; i < n; i++) {
        bool second = s[i] == '\n' && decoder->after_cr;
        decoder->after_cr = s[i] == '\r';
        decoder->line += (s[i] == '\n' && !second) || s[i] == '\r' ? 1 : 0;
    }
}

/* One U+FFFD for each byte that is no text, reported once a line. */
static void tell_replaced(struct plmi_decoder *decoder, long line, unsigned char byte)
{
    decoder->partial = true;
    if (decoder->reported_line == line) {
        return;
    }
    decoder->reported_line = line;
    plmi_diags_add(decoder->diags, PLM_LEVEL_WARNING, PLM_DIAG_ENCODING, line, 0,
                   "byte 0x%02x is not text; such bytes are read as U+FFFD", byte);
}

/* Input bytes to pending by iconv. What it cannot take yet stays in input. */
static void convert(struct plmi_decoder *decoder)
{
    char *in = decoder->input;
    size_t in_left = decoder->input_count;
    char *to = decoder->converted;
    size_t to_left = CONVERTED_BYTES;
    const char *counted = to;
    long line = decoder->line;
    while (in_left > 0 && to_left >= 16) {
        if (iconv(decoder->converter, &in, &in_left, &to, &to_left) != (size_t)-1) {
            continue;
        }
        bool cut = errno == EINVAL;
        if (errno == E2BIG || (cut && !decoder->ended)) {
            break;
        }
        line += (long)count_feeds(counted, (size_t)(to - counted));
        counted = to;
        tell_replaced(decoder, line, (unsigned char)*in);
        memcpy(to, REPLACEMENT, 3);
        to += 3;
        to_left -= 3;
        size_t skip = cut || decoder->unit_bytes > in_left ? in_left : decoder->unit_bytes;
        in += skip;
        in_left -= skip;
    }
    memmove(decoder->input, in, in_left);
    decoder->input_count = in_left;
    decoder->pending = decoder->converted;
    decoder->pending_count = CONVERTED_BYTES - to_left;
}

static size_t ascii_length(const char *s, size_t n)
{
    enum { BLOCK = 32 };
    size_t at = 0;
    for (; n - at >= BLOCK; at += BLOCK) {
        unsigned char all = 0;
        for (size_t i = 0; i < BLOCK; i++) {
            all |= (unsigned char)s[at + i];
        }
        if (all >= 0x80) {
            break;
        }
    }
    while (at < n && (unsigned char)s[at] < 0x80) {
        at++;
    }
    return at;
}

/* A table that was ASCII so far meets other bytes: they are UTF-8 or, where they cannot be, Windows-1252. */
static enum plm_status decide(struct plmi_decoder *decoder)
{
    size_t tail = decoder->ended ? 0 : open_tail(decoder->input, decoder->input_count);
    const char *at = decoder->input;
    size_t left = decoder->input_count - tail;
    bool beyond_ascii = tail > 0;
    bool valid = true;
    while (left > 0 && valid) {
        size_t length = ascii_length(at, left);
        if (length == 0) {
            beyond_ascii = true;
            length = plmi_utf8_length(at, left);
        }
        valid = length > 0;
        at += length;
        left -= length;
    }
    decoder->undecided = valid && !beyond_ascii;
    return valid ? PLM_STATUS_OK : convert_found(decoder, "WINDOWS-1252", 1);
}

/* More bytes, decoded into pending; it may stay empty. */
static enum plm_status refill(struct plmi_decoder *decoder)
{
    size_t got = 0;
    if (!decoder->ended && decoder->input_count < INPUT_BYTES) {
        enum plm_status status = plm_source_read(decoder->source, decoder->input + decoder->input_count,
                                                 INPUT_BYTES - decoder->input_count, &got);
        if (status != PLM_STATUS_OK && status != PLM_STATUS_END) {
            return status;
        }
        decoder->ended = status == PLM_STATUS_END;
        decoder->input_count += got;
    }
    if (decoder->undecided) {
        enum plm_status status = decide(decoder);
        if (status != PLM_STATUS_OK) {
            return status;
        }
    }
    if (decoder->converter != NO_CONVERTER) {
        convert(decoder);
    } else {
        size_t tail = decoder->ended ? 0 : open_tail(decoder->input, decoder->input_count);
        decoder->pending = decoder->input;
        decoder->pending_count = decoder->input_count - tail;
        decoder->input_count = tail;
    }
    return PLM_STATUS_OK;
}

/* The start of pending, up to REPAIR_BYTES of it, with replacements. */
static enum plm_status repair(struct plmi_decoder *decoder, const char **bytes, size_t *count)
{
    if (decoder->repaired == NULL) {
        decoder->repaired = malloc(3 * REPAIR_BYTES);
    }
    if (decoder->repaired == NULL) {
        return fail_memory(decoder);
    }
    size_t at = 0;
    size_t out = 0;
    while (at < decoder->pending_count && at + 4 <= REPAIR_BYTES) {
        size_t window =
            REPAIR_BYTES - at < decoder->pending_count - at ? REPAIR_BYTES - at : decoder->pending_count - at;
        size_t clean = clean_length(decoder->pending + at, window);
        memcpy(decoder->repaired + out, decoder->pending + at, clean);
        count_lines(decoder, decoder->pending + at, clean);
        at += clean;
        out += clean;
        if (at < decoder->pending_count && at + 4 <= REPAIR_BYTES) {
            tell_replaced(decoder, decoder->line, (unsigned char)decoder->pending[at]);
            memcpy(decoder->repaired + out, REPLACEMENT, 3);
            count_lines(decoder, REPLACEMENT, 3);
            at++;
            out += 3;
        }
    }
    decoder->pending += at;
    decoder->pending_count -= at;
    *bytes = decoder->repaired;
    *count = out;
    return PLM_STATUS_OK;
}

/* What is left in input when nothing is pending moves to its start. */
static void keep_tail(struct plmi_decoder *decoder)
{
    if (decoder->converter == NO_CONVERTER && decoder->input_count > 0 && decoder->pending != NULL) {
        memmove(decoder->input, decoder->pending, decoder->input_count);
    }
    decoder->pending = NULL;
}

enum plm_status plmi_decoder_next(struct plmi_decoder *decoder, const char **bytes, size_t *count)
{
    while (decoder->pending_count == 0) {
        keep_tail(decoder);
        if (decoder->ended && decoder->input_count == 0) {
            return PLM_STATUS_END;
        }
        enum plm_status status = refill(decoder);
        if (status != PLM_STATUS_OK) {
            return status;
        }
    }
    if (clean_length(decoder->pending, decoder->pending_count) < decoder->pending_count) {
        return repair(decoder, bytes, count);
    }
    *bytes = decoder->pending;
    *count = decoder->pending_count;
    count_lines(decoder, *bytes, *count);
    decoder->pending += decoder->pending_count;
    decoder->pending_count = 0;
    return PLM_STATUS_OK;
}

bool plmi_decoder_partial(const struct plmi_decoder *decoder)
{
    return decoder->partial;
}

void plmi_decoder_free(struct plmi_decoder *decoder)
{
    if (decoder == NULL) {
        return;
    }
    if (decoder->converter != NO_CONVERTER) {
        (void)iconv_close(decoder->converter);
    }
    free(decoder->converted);
    free(decoder->repaired);
    free(decoder);
}
