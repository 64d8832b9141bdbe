/*
 * --write-edited DIR: the edited dives that costs were found with, each as a log of its own.
 * Includes public headers of the library only.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_CLI_WRITE_EDITED_H
#define PLM_CLI_WRITE_EDITED_H

#include <plimsoll/debrief.h>

#include "cli/command.h"

/*
 * Writes DIR/LOG-dive-N-MM-KIND.uddf for each finding that has a cost, MM as the report numbers it, and
 * DIR/LOG-dive-N-all.uddf. DIR is made where it is not there. Returns: false when reported.
 */
bool plmi_cli_edited_write(struct plmi_cli_call *call, const struct plm_debriefed *debriefed);

#endif
