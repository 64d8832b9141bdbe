/*
 * Fuzzes byte sources, gzip above all: two passes and any piece size give the same bytes and the same end,
 * within the bounds. The first byte of an input chooses the piece size, the rest is the file.
 * Must not fail without a diagnostic.
 * SPDX-License-Identifier: MIT
 */
#include <plimsoll/source.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void check(int holds)
{
    if (!holds) {
        abort();
    }
}

static void count_errors(void *context, const struct plm_diag *diag)
{
    *(int *)context += diag->level == PLM_LEVEL_ERROR ? 1 : 0;
}

static enum plm_status drain(struct plm_source *source, struct plmi_text *out, size_t piece)
{
    char buffer[4096];
    size_t got = 0;
    enum plm_status status = PLM_STATUS_OK;
    while ((status = plm_source_read(source, buffer, piece, &got)) == PLM_STATUS_OK) {
        check(got > 0 && got <= piece);
        plmi_text_add(out, buffer, got);
    }
    return status;
}

static void look(struct plm_source *source, size_t piece)
{
    struct plmi_text first;
    struct plmi_text second;
    const unsigned char *head = NULL;
    size_t count = 0;
    char hex[65];
    plmi_text_init(&first);
    plmi_text_init(&second);
    enum plm_status peeked = plm_source_peek(source, &head, &count);
    enum plm_status status = drain(source, &first, piece);
    check(peeked == PLM_STATUS_OK || (peeked == status && first.count == 0));
    check(plm_source_sha256(source, hex) == PLM_STATUS_OK);
    check(drain(source, &second, 4096) == status && second.count == first.count);
    check(first.count == 0 || memcmp(first.bytes, second.bytes, first.count) == 0);
    plmi_text_free(&first);
    plmi_text_free(&second);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    if (size == 0) {
        return 0;
    }
    int errors = 0;
    struct plm_diag_sink sink = {count_errors, &errors};
    struct plm_rules rules = plm_rules_default();
    rules.file_max_mb = 2;
    struct plm_source *source = NULL;
    enum plm_status status = plm_source_open_memory(&source, data + 1, size - 1, "fuzz", &rules, &sink);
    if (status == PLM_STATUS_OK) {
        look(source, (size_t)data[0] * 16 + 1);
    }
    check(status == PLM_STATUS_OK || errors > 0);
    plm_source_free(source);
    return 0;
}
