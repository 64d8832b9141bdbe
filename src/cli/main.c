/*
 * The program plimsoll: hands its arguments to the command line. Must not hold anything else.
 * SPDX-License-Identifier: MIT
 */
#include <stdlib.h>

#include "cli/command.h"
#include "cli/descriptors.h"
#include "cli/parts.h"

int main(int argc, char **argv)
{
    struct plmi_cli_parts parts;
    if (!plmi_cli_descriptors_reserve())
        return PLMI_CLI_EXIT_TROUBLE;
    plmi_cli_parts_watch(&parts);
    /* No return: the parts are watched to the last. */
    exit(plmi_cli_run(argc, argv, &parts));
}
