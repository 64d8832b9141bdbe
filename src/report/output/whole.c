/*
 * What reports written in one piece share. Must not know what they are about.
 * SPDX-License-Identifier: MIT
 */
#include "report/output/whole.h"

#include <string.h>

void plmi_whole_init(struct plmi_text *text, const char *format)
{
    if (strcmp(format, "text") == 0) {
        plmi_text_init_plain(text);
    } else {
        plmi_text_init(text);
    }
}

void plmi_whole_cautions(struct plmi_page *page, const char *const *cautions, size_t count)
{
    plmi_page_heading(page, "CAUTIONS");
    for (size_t i = 0; i < count; i++) {
        plmi_text_puts(page->out, "  - ");
        plmi_page_wrap(page, 4, 4, cautions[i]);
    }
}
