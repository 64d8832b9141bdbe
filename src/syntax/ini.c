/*
 * INI text by inih, fed line by line so that each entry knows its line and nothing is cut without a word.
 * SPDX-License-Identifier: MIT
 */
#include "syntax/ini.h"

#include <ini.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "syntax/decode.h"

#define TEXT_MAX_BYTES ((size_t)1 << 20)
/* inih cuts names and sections behind this many bytes. */
#define NAME_MAX_BYTES 48

struct reading {
    const char *bytes;
    size_t count, at;
    long line;
    enum plm_diag_id id;
    bool failed, bad_line; /* bad_line: the present line was reported already */
    void (*take)(void *context, const struct plmi_ini_entry *entry);
    void *context;
    struct plmi_diags *diags;
};

static void refuse_line(struct reading *reading, const char *why)
{
    plmi_diags_add(reading->diags, PLM_LEVEL_ERROR, reading->id, reading->line, 0, "%s; the line is not used", why);
    reading->failed = true;
    reading->bad_line = true;
}

/* What inih would cut or misread without a word. NULL: nothing. */
static const char *fault_of(const char *line, size_t n, size_t room)
{
    size_t start = 0;
    while (start < n && (line[start] == ' ' || line[start] == '\t')) {
        start++;
    }
    if (n + 3 > room) {
        return "the line is too long";
    }
    if (start < n && line[start] == '[') {
        const char *close = memchr(line, ']', n);
        return close == NULL                                     ? "the section has no closing bracket"
               : (size_t)(close - line) - start > NAME_MAX_BYTES ? "the section's name is too long"
                                                                 : NULL;
    }
    if (start < n && (line[start] == ';' || line[start] == '#')) {
        return NULL;
    }
    const char *equals = memchr(line, '=', n);
    return equals != NULL && (size_t)(equals - line) - start > NAME_MAX_BYTES ? "the key is too long" : NULL;
}

/* inih's reader: one line a call, an empty one in place of a line that cannot be used. */
static char *next_line(char *buffer, int room, void *stream)
{
    struct reading *reading = stream;
    if (reading->at >= reading->count) {
        return NULL;
    }
    const char *line = reading->bytes + reading->at;
    size_t left = reading->count - reading->at, n = 0;
    while (n < left && line[n] != '\n') {
        n++;
    }
    reading->at += n < left ? n + 1 : n;
    reading->line++;
    reading->bad_line = false;
    while (n > 0 && line[n - 1] == '\r') {
        n--;
    }
    const char *fault = fault_of(line, n, (size_t)room);
    if (fault != NULL) {
        refuse_line(reading, fault);
        n = 0;
    }
    memcpy(buffer, line, n);
    buffer[n] = '\n';
    buffer[n + 1] = '\0';
    return buffer;
}

static int take_entry(void *user, const char *section, const char *name, const char *value)
{
    struct reading *reading = user;
    const struct plmi_ini_entry entry = {section, name, value, reading->line};
    reading->take(reading->context, &entry);
    return 1;
}

/* All decoded text behind what is there. */
static enum plm_status take_pieces(struct plmi_decoder *decoder, struct plmi_text *text, struct plmi_diags *diags)
{
    for (;;) {
        const char *piece;
        size_t count;
        enum plm_status status = plmi_decoder_next(decoder, &piece, &count);
        if (status == PLM_STATUS_END) {
            return PLM_STATUS_OK;
        }
        if (status != PLM_STATUS_OK) {
            return status;
        }
        plmi_text_add(text, piece, count);
        if (text->failed) {
            return plmi_diags_no_memory(diags, 0, "for the text");
        }
        if (text->count > TEXT_MAX_BYTES) {
            plmi_diags_add(diags, PLM_LEVEL_ERROR, PLM_DIAG_LIMIT, 0, 0,
                           "longer than 1 MB, which no file of this kind is; not read");
            return PLM_STATUS_LIMIT;
        }
    }
}

static enum plm_status read_all(struct plm_source *source, struct plmi_text *text, struct plmi_diags *diags)
{
    struct plmi_decoder *decoder;
    enum plm_status status = plmi_decoder_open(&decoder, source, PLMI_TEXT_TABLE, diags);
    if (status == PLM_STATUS_OK) {
        status = take_pieces(decoder, text, diags);
    }
    plmi_decoder_free(decoder);
    return status;
}

/* inih names the first line it could not read; it hands the others over. */
static void tell_fault(struct reading *reading, int fault)
{
    if (fault > 0 && !(reading->failed && reading->bad_line)) {
        reading->line = fault;
        refuse_line(reading, "neither a [section] nor a key = value");
    } else if (fault < 0) {
        (void)plmi_diags_no_memory(reading->diags, 0, "for the text");
        reading->failed = true;
    }
}

enum plm_status plmi_ini_read(struct plm_source *source, enum plm_diag_id id,
                              void (*take)(void *context, const struct plmi_ini_entry *entry), void *context,
                              struct plmi_diags *diags)
{
    struct plmi_text text;
    struct reading reading = {.id = id, .take = take, .context = context, .diags = diags};
    plmi_text_init(&text);
    enum plm_status status = read_all(source, &text, diags);
    if (status == PLM_STATUS_OK) {
        reading.bytes = text.bytes != NULL ? text.bytes : "";
        reading.count = text.count;
        tell_fault(&reading, ini_parse_stream(next_line, &reading, take_entry, &reading));
        status = reading.failed ? PLM_STATUS_INPUT : PLM_STATUS_OK;
    }
    plmi_text_free(&text);
    return status;
}
