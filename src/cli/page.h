/*
 * Short pages of words, wrapped, to standard output or -o FILE.
 * Includes public headers of the library only.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_CLI_PAGE_H
#define PLM_CLI_PAGE_H

#include "cli/file.h"

struct plmi_cli_page {
    struct plmi_cli_file file;
    bool failed;
};

/* Returns: false when reported. */
bool plmi_cli_page_open(struct plmi_cli_page *page, struct plmi_cli_call *call);
/* Words, made plain (plm_text_plain), and the line feeds behind them. */
void plmi_cli_page_put(struct plmi_cli_page *page, const char *text);
/* Words wrapped at 80 columns, each line behind the indent. */
void plmi_cli_page_wrap(struct plmi_cli_page *page, const char *indent, const char *text);
/* Makes the page whole. Returns: false when reported. */
bool plmi_cli_page_finish(struct plmi_cli_page *page);

/* -o FILE, for commands that write pages. */
extern const struct plmi_cli_options plmi_cli_options_page;

#endif
