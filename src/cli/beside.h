/*
 * What lies beside a log: its dive card, and its plan.
 * Includes public headers of the library only.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_CLI_BESIDE_H
#define PLM_CLI_BESIDE_H

#include <plimsoll/card.h>

#include "cli/command.h"

struct plmi_cli_beside {
    struct plm_card *card;   /* NULL: none */
    struct plm_dive *plan;   /* NULL: none */
};

/*
 * The card: --card, else the one beside the log (its name with .card in place of its ending), which is told. The plan: --plan, else the file that the card names.
 * Returns: OK, or an error that is reported; beside can be freed either way.
 */
enum plm_status plmi_cli_beside_read(struct plmi_cli_beside *beside, struct plmi_cli_call *call, const char *log);
void plmi_cli_beside_free(struct plmi_cli_beside *beside);

#endif
