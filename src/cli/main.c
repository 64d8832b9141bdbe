/*
 * The program plimsoll: hands its arguments to the command line. Must not hold anything else.
 * SPDX-License-Identifier: MIT
 */
#include "cli/command.h"
#include "cli/descriptors.h"
#include "cli/parts.h"

int main(int argc, char **argv)
{
    struct plmi_cli_parts parts;
    if (!plmi_cli_descriptors_reserve()) {
        return PLMI_CLI_EXIT_TROUBLE;
    }
    plmi_cli_parts_watch(&parts);
    int status = plmi_cli_run(argc, argv, &parts);
    plmi_cli_parts_leave(&parts);
    return status;
}
