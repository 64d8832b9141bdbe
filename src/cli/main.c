/*
 * The program plimsoll: hands its arguments to the command line. Must not hold anything else.
 * SPDX-License-Identifier: MIT
 */
#include "cli/command.h"
#include "cli/descriptors.h"

int main(int argc, char **argv)
{
    if (!plmi_cli_descriptors_reserve())
        return PLMI_CLI_EXIT_TROUBLE;
    return plmi_cli_run(argc, argv);
}
