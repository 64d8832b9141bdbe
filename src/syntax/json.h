/*
 * JSON written in order, never read. Escapes text, whatever would steer a terminal too; invalid UTF-8 becomes U+FFFD;
 * NaN and infinities become null.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_SYNTAX_JSON_H
#define PLM_SYNTAX_JSON_H

#include "base/text.h"

/* Writer over a growing text; depth at most 64. indent 0: one line; 2: a line each member. */
struct plmi_json {
    struct plmi_text *out;
    int depth;
    int indent;
    bool first[64];
};

void plmi_json_init(struct plmi_json *json, struct plmi_text *out, int indent);
/* key is NULL inside an array or at the top. */
void plmi_json_object_begin(struct plmi_json *json, const char *key);
void plmi_json_object_end(struct plmi_json *json);
void plmi_json_array_begin(struct plmi_json *json, const char *key);
void plmi_json_array_end(struct plmi_json *json);
void plmi_json_text(struct plmi_json *json, const char *key, const char *value); /* NULL: null */
/* An array of texts. */
void plmi_json_texts(struct plmi_json *json, const char *key, const char *const *values, size_t count);
void plmi_json_fixed(struct plmi_json *json, const char *key, double value, int digits);
void plmi_json_integer(struct plmi_json *json, const char *key, long long value);
void plmi_json_bool(struct plmi_json *json, const char *key, bool value);
void plmi_json_null(struct plmi_json *json, const char *key);

#endif
