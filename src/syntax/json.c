/*
 * JSON (RFC 8259) written in order. Must not read any, must not depend on a locale.
 * SPDX-License-Identifier: MIT
 */
#include "syntax/json.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#include "base/number.h"
#include "base/plain.h"
#include "base/utf8.h"

enum { DEPTH_MAX = sizeof((struct plmi_json *)0)->first / sizeof(bool) };

void plmi_json_init(struct plmi_json *json, struct plmi_text *out, int indent)
{
    memset(json, 0, sizeof *json);
    json->out = out;
    json->indent = indent;
    json->first[0] = true;
}

static void break_line(struct plmi_json *json)
{
    static const char blanks[] = "                                ";
    if (json->indent <= 0) {
        return;
    }
    plmi_text_add(json->out, "\n", 1);
    size_t left = (size_t)json->depth * (size_t)json->indent;
    while (left > 0) {
        size_t some = left < sizeof blanks - 1 ? left : sizeof blanks - 1;
        plmi_text_add(json->out, blanks, some);
        left -= some;
    }
}

/* Length of the run at s that stands for itself. */
static size_t plain_length(const char *s, size_t n)
{
    size_t at = 0;
    while (at < n && (unsigned char)s[at] >= 0x20 && (unsigned char)s[at] < 0x7f && s[at] != '"' && s[at] != '\\') {
        at++;
    }
    return at;
}

/* One character that does not stand for itself. Returns: bytes taken. */
static size_t write_escaped(struct plmi_text *out, const char *s, size_t n)
{
    static const char named[] = "\"\\\b\f\n\r\t";
    static const char letters[] = "\"\\bfnrt";
    const char *name = strchr(named, *s);
    if (name != NULL && *s != '\0') {
        char pair[2] = {'\\', letters[name - named]};
        plmi_text_add(out, pair, 2);
        return 1;
    }
    size_t length = plmi_utf8_length(s, n);
    unsigned long code = length > 0 ? plmi_utf8_code(s, length) : 0;
    /* None of these is beyond U+FFFF. */
    if (length > 0 && plmi_steers(code)) {
        plmi_text_printf(out, "\\u%04lx", code);
        return length;
    }
    if (length == 0) {
        plmi_text_puts(out, "\xef\xbf\xbd");
        return 1;
    }
    plmi_text_add(out, s, length);
    return length;
}

static void write_string(struct plmi_text *out, const char *s)
{
    size_t left = strlen(s);
    plmi_text_add(out, "\"", 1);
    while (left > 0) {
        size_t plain = plain_length(s, left);
        plmi_text_add(out, s, plain);
        s += plain;
        left -= plain;
        if (left > 0) {
            size_t taken = write_escaped(out, s, left);
            s += taken;
            left -= taken;
        }
    }
    plmi_text_add(out, "\"", 1);
}

/* What stands before a value: comma, line, key. */
static void begin_member(struct plmi_json *json, const char *key)
{
    if (!json->first[json->depth]) {
        plmi_text_add(json->out, ",", 1);
    }
    if (json->depth > 0) {
        break_line(json);
    }
    json->first[json->depth] = false;
    if (key != NULL) {
        write_string(json->out, key);
        plmi_text_add(json->out, ": ", json->indent > 0 ? 2 : 1);
    }
}

static void begin_level(struct plmi_json *json, const char *key, const char *bracket)
{
    begin_member(json, key);
    plmi_text_puts(json->out, bracket);
    assert(json->depth + 1 < (int)DEPTH_MAX);
    json->depth++;
    json->first[json->depth] = true;
}

static void end_level(struct plmi_json *json, const char *bracket)
{
    assert(json->depth > 0);
    bool empty = json->first[json->depth];
    json->depth--;
    if (!empty) {
        break_line(json);
    }
    plmi_text_puts(json->out, bracket);
}

void plmi_json_object_begin(struct plmi_json *json, const char *key)
{
    begin_level(json, key, "{");
}

void plmi_json_object_end(struct plmi_json *json)
{
    end_level(json, "}");
}

void plmi_json_array_begin(struct plmi_json *json, const char *key)
{
    begin_level(json, key, "[");
}

void plmi_json_array_end(struct plmi_json *json)
{
    end_level(json, "]");
}

void plmi_json_text(struct plmi_json *json, const char *key, const char *value)
{
    begin_member(json, key);
    if (value == NULL) {
        plmi_text_puts(json->out, "null");
    } else {
        write_string(json->out, value);
    }
}

void plmi_json_texts(struct plmi_json *json, const char *key, const char *const *values, size_t count)
{
    plmi_json_array_begin(json, key);
    for (size_t i = 0; i < count; i++) {
        plmi_json_text(json, NULL, values[i]);
    }
    plmi_json_array_end(json);
}

void plmi_json_fixed(struct plmi_json *json, const char *key, double value, int digits)
{
    begin_member(json, key);
    if (isfinite(value)) {
        plmi_number_fixed(json->out, value, digits);
    } else {
        plmi_text_puts(json->out, "null");
    }
}

void plmi_json_integer(struct plmi_json *json, const char *key, long long value)
{
    begin_member(json, key);
    plmi_text_printf(json->out, "%lld", value);
}

void plmi_json_bool(struct plmi_json *json, const char *key, bool value)
{
    begin_member(json, key);
    plmi_text_puts(json->out, value ? "true" : "false");
}

void plmi_json_null(struct plmi_json *json, const char *key)
{
    begin_member(json, key);
    plmi_text_puts(json->out, "null");
}
