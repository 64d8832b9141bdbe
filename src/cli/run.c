/*
 * From the arguments of the program to one command. Must not know what any command does.
 * SPDX-License-Identifier: MIT
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <plimsoll/version.h>

#include "cli/command.h"
#include "cli/number.h"

enum plmi_cli_exit plmi_cli_worse(enum plmi_cli_exit a, enum plmi_cli_exit b)
{
    return a > b ? a : b;
}

enum plmi_cli_exit plmi_cli_exit_of(enum plm_status status)
{
    if (status == PLM_STATUS_OK || status == PLM_STATUS_END)
        return PLMI_CLI_EXIT_CLEAR;
    return status == PLM_STATUS_MEMORY || status == PLM_STATUS_ARGUMENT ? PLMI_CLI_EXIT_TROUBLE : PLMI_CLI_EXIT_PARTIAL;
}

static const struct plmi_cli_command *command_find(const char *name)
{
    size_t count;
    const struct plmi_cli_command *const *commands = plmi_cli_commands(&count);
    for (size_t i = 0; i < count; i++)
        if (strcmp(commands[i]->name, name) == 0)
            return commands[i];
    return NULL;
}

static const char *command_nearest(const char *name)
{
    size_t count;
    const struct plmi_cli_command *const *commands = plmi_cli_commands(&count);
    const char *nearest = commands[0]->name;
    for (size_t i = 1; i < count; i++)
        if (plmi_cli_distance(name, commands[i]->name) < plmi_cli_distance(name, nearest))
            nearest = commands[i]->name;
    return nearest;
}

/* Arguments behind the command's name. */
static enum plmi_cli_exit command_run(const struct plmi_cli_command *command, int argc, char **argv)
{
    struct plmi_cli_call call = {.command = command};
    bool help = false;
    enum plmi_cli_exit outcome = PLMI_CLI_EXIT_TROUBLE;
    plmi_cli_talk_init(&call.talk);
    plmi_cli_settings_init(&call.settings);
    call.operands = calloc((size_t)argc + 1, sizeof *call.operands);
    if (call.operands == NULL) {
        plmi_cli_talk_usage(&call.talk, PLM_LEVEL_ERROR, "no memory");
        return outcome;
    }
    if (plmi_cli_arguments_read(&call, argc, argv, &help)) {
        if (help) {
            plmi_cli_help_command(command);
            outcome = PLMI_CLI_EXIT_CLEAR;
        } else if (plmi_cli_settings_settle(&call.settings, &call.talk)) {
            outcome = command->run(&call);
        }
    }
    plmi_cli_settings_free(&call.settings);
    free(call.operands);
    return outcome;
}

static enum plmi_cli_exit program_run(int argc, char **argv)
{
    struct plmi_cli_talk talk;
    plmi_cli_talk_init(&talk);
    if (argc < 2) {
        plmi_cli_talk_usage(&talk, PLM_LEVEL_ERROR, "no command is given; see plimsoll --help");
        return PLMI_CLI_EXIT_TROUBLE;
    }
    if (strcmp(argv[1], "--help") == 0) {
        plmi_cli_help_program();
        return PLMI_CLI_EXIT_CLEAR;
    }
    if (strcmp(argv[1], "--version") == 0) {
        printf("plimsoll %s\n", plm_version_get());
        return PLMI_CLI_EXIT_CLEAR;
    }
    const struct plmi_cli_command *command = command_find(argv[1]);
    if (command == NULL) {
        plmi_cli_talk_usage(&talk, PLM_LEVEL_ERROR, "no command \"%s\"; the nearest is %s", argv[1], command_nearest(argv[1]));
        return PLMI_CLI_EXIT_TROUBLE;
    }
    return command_run(command, argc - 2, argv + 2);
}

int plmi_cli_run(int argc, char **argv)
{
    enum plmi_cli_exit outcome = program_run(argc, argv);
    if (fflush(stdout) != 0 || ferror(stdout)) {
        struct plmi_cli_talk talk;
        plmi_cli_talk_init(&talk);
        plmi_cli_talk_usage(&talk, PLM_LEVEL_ERROR, "standard output cannot be written");
        return PLMI_CLI_EXIT_TROUBLE;
    }
    return (int)outcome;
}
