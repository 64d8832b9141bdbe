/*
 * Fuzzes the decoder and XML events: they nest, their text is valid UTF-8 without blanks at its ends,
 * their lines rise. Must not fail without a diagnostic.
 * SPDX-License-Identifier: MIT
 */
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "base/utf8.h"
#include "syntax/xml.h"

static void count_error(void *context, const struct plm_diag *diag)
{
    *(int *)context += diag->level == PLM_LEVEL_ERROR ? 1 : 0;
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

struct reading {
    int depth;
    long line;
};

static void check(int holds)
{
    if (!holds) {
        abort();
    }
}

static void check_line(struct reading *reading, long line, long column)
{
    check(line >= reading->line && line >= 1 && column >= 1);
    reading->line = line;
}

static void on_open(void *context, const char *name, const char *const *attributes, long line, long column)
{
    struct reading *reading = context;
    check_line(reading, line, column);
    check(strchr(name, ':') == NULL && ++reading->depth <= 64);
    (void)plmi_xml_attribute(attributes, "ref");
}

static void on_close(void *context, const char *name, const char *text, long line, long column)
{
    struct reading *reading = context;
    size_t length = strlen(text);
    check_line(reading, line, column);
    check(name != NULL && --reading->depth >= 0);
    check(length == 0 || (strchr(" \t\r\n", text[0]) == NULL && strchr(" \t\r\n", text[length - 1]) == NULL));
    for (size_t at = 0; at < length;) {
        size_t step = plmi_utf8_length(text + at, length - at);
        check(step > 0);
        at += step;
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static const struct plmi_xml_handlers handlers = {on_open, on_close};
    if (size > 1 && data[0] == 0x1f && data[1] == 0x8b) {
        return 0; /* fuzz_gzip has these */
    }
    struct reading reading = {0, 1};
    struct plm_rules rules = plm_rules_default();
    int errors = 0;
    const struct plm_diag_sink sink = {count_error, &errors};
    struct plmi_diags diags = {&sink, "fuzz"};
    struct plm_source *source = NULL;
    struct plmi_xml *xml = NULL;
    rules.cell_max_bytes = 1000;
    check(plm_source_open_memory(&source, data, size, "fuzz", &rules, NULL) == PLM_STATUS_OK);
    enum plm_status status = plmi_xml_open(&xml, source, &handlers, &reading, &rules, &diags);
    while (status == PLM_STATUS_OK) {
        status = plmi_xml_step(xml);
    }
    check(status == PLM_STATUS_END ? reading.depth == 0 : errors > 0);
    plmi_xml_free(xml);
    plm_source_free(source);
    return 0;
}
