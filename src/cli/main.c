/*
 * The program plimsoll: hands its arguments to the command line. Must not hold anything else.
 * SPDX-License-Identifier: MIT
 */
#include "cli/command.h"

int main(int argc, char **argv)
{
    return plmi_cli_run(argc, argv);
}
