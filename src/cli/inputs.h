/*
 * The files that a run reads, so that none of them is written over.
 * Includes public headers of the library only.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_CLI_INPUTS_H
#define PLM_CLI_INPUTS_H

#include <stdbool.h>

struct plmi_cli_call;

/*
 * Whether a path may be written to: false (reported) where it is, by whatever name or link, a log, card, plan, rules
 * file or ledger of this run, or standard input. What is found in a folder that is searched counts where it is a log, a
 * card or a plan. "-" is standard output.
 */
bool plmi_cli_inputs_spared(struct plmi_cli_call *call, const char *path);
/* The same for all that options tell to write, before anything is read; nor may two of these be one file. */
bool plmi_cli_inputs_spared_by_options(struct plmi_cli_call *call);
void plmi_cli_inputs_free(struct plmi_cli_call *call);

#endif
