/*
 * Words for the outcomes of calls. Must not know any input.
 * SPDX-License-Identifier: MIT
 */
#include <stddef.h>

#include <plimsoll/status.h>

static const char *const status_words[] = {
    [PLM_STATUS_OK] = "ok",
    [PLM_STATUS_END] = "end",
    [PLM_STATUS_INPUT] = "unusable input",
    [PLM_STATUS_LIMIT] = "bound crossed",
    [PLM_STATUS_IO] = "reading or writing failed",
    [PLM_STATUS_MEMORY] = "no memory",
    [PLM_STATUS_ARGUMENT] = "unusable arguments",
    [PLM_STATUS_UNSOLVABLE] = "no answer exists",
};

const char *plm_status_text(enum plm_status status)
{
    size_t at = (size_t)status;
    return at < sizeof status_words / sizeof status_words[0] ? status_words[at] : "unknown status";
}
