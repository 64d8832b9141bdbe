/*
 * From the arguments of the program to one command. Must not know what any command does.
 * SPDX-License-Identifier: MIT
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <plimsoll/nearest.h>
#include <plimsoll/version.h>

#include "cli/command.h"
#include "cli/inputs.h"
#include "cli/print.h"

/* The word by which a command is called: the last of its name. */
static const char *command_word(const struct plmi_cli_command *command)
{
    const char *blank = strchr(command->name, ' ');
    return blank != NULL ? blank + 1 : command->name;
}

static const struct plmi_cli_command *command_find(const struct plmi_cli_command *const *commands, size_t count,
                                                   const char *word)
{
    for (size_t i = 0; i < count; i++) {
        if (strcmp(command_word(commands[i]), word) == 0) {
            return commands[i];
        }
    }
    return NULL;
}

static const char *command_nearest(const struct plmi_cli_command *const *commands, size_t count, const char *word)
{
    struct plm_nearest nearest = plm_nearest_begin(word);
    for (size_t i = 0; i < count; i++) {
        plm_nearest_offer(&nearest, command_word(commands[i]));
    }
    return nearest.known;
}

/* Arguments behind the command's name. */
static enum plmi_cli_exit command_run(const struct plmi_cli_command *command, int argc, char **argv,
                                      struct plmi_cli_parts *parts)
{
    struct plmi_cli_call call = {.command = command, .parts = parts};
    bool help = false;
    enum plmi_cli_exit outcome = PLMI_CLI_EXIT_TROUBLE;
    plmi_cli_talk_init(&call.talk);
    plmi_cli_settings_init(&call.settings);
    call.settings.report = command->report;
    call.operands = calloc((size_t)argc + 1, sizeof *call.operands);
    if (call.operands == NULL) {
        plmi_cli_talk_usage(&call.talk, PLM_LEVEL_ERROR, "no memory");
        return outcome;
    }
    if (plmi_cli_arguments_read(&call, argc, argv, &help)) {
        if (help) {
            plmi_cli_help_command(command);
            outcome = PLMI_CLI_EXIT_CLEAR;
        } else if (plmi_cli_inputs_spared_by_options(&call) && plmi_cli_settings_settle(&call.settings, &call.talk)) {
            outcome = command->run(&call);
        }
    }
    plmi_cli_inputs_free(&call);
    plmi_cli_settings_free(&call.settings);
    free(call.operands);
    return outcome;
}

/* A command of a command: argv[0] is its second word. */
static enum plmi_cli_exit part_run(const struct plmi_cli_command *command, int argc, char **argv,
                                   struct plmi_cli_parts *parts, struct plmi_cli_talk *talk)
{
    size_t count = 0;
    while (command->parts[count] != NULL) {
        count++;
    }
    if (argc > 0 && strcmp(argv[0], "--help") == 0) {
        plmi_cli_help_parts(command);
        return PLMI_CLI_EXIT_CLEAR;
    }
    const struct plmi_cli_command *part = argc > 0 ? command_find(command->parts, count, argv[0]) : NULL;
    if (part != NULL) {
        return command_run(part, argc - 1, argv + 1, parts);
    }
    if (argc > 0) {
        plmi_cli_talk_usage(talk, PLM_LEVEL_ERROR, "%s has no command \"%s\"; the nearest is %s", command->name,
                            argv[0], command_nearest(command->parts, count, argv[0]));
    } else {
        plmi_cli_talk_usage(talk, PLM_LEVEL_ERROR, "%s needs %s; see plimsoll %s --help", command->name,
                            command->operands, command->name);
    }
    return PLMI_CLI_EXIT_TROUBLE;
}

static enum plmi_cli_exit program_run(int argc, char **argv, struct plmi_cli_parts *parts)
{
    struct plmi_cli_talk talk;
    size_t count;
    const struct plmi_cli_command *const *commands = plmi_cli_commands(&count);
    plmi_cli_talk_init(&talk);
    if (argc < 2) {
        plmi_cli_talk_usage(&talk, PLM_LEVEL_ERROR, "no command is given; see plimsoll --help");
        return PLMI_CLI_EXIT_TROUBLE;
    }
    if (strcmp(argv[1], "--help") == 0) {
        plmi_cli_help_program(commands, count);
        return PLMI_CLI_EXIT_CLEAR;
    }
    if (strcmp(argv[1], "--version") == 0) {
        plmi_cli_print(stdout, "plimsoll %s\n", plm_version_get());
        return PLMI_CLI_EXIT_CLEAR;
    }
    const struct plmi_cli_command *command = command_find(commands, count, argv[1]);
    if (command == NULL) {
        plmi_cli_talk_usage(&talk, PLM_LEVEL_ERROR, "no command \"%s\"; the nearest is %s", argv[1],
                            command_nearest(commands, count, argv[1]));
        return PLMI_CLI_EXIT_TROUBLE;
    }
    return command->parts != NULL ? part_run(command, argc - 2, argv + 2, parts, &talk)
                                  : command_run(command, argc - 2, argv + 2, parts);
}

int plmi_cli_run(int argc, char **argv, struct plmi_cli_parts *parts)
{
    enum plmi_cli_exit outcome = program_run(argc, argv, parts);
    if (fflush(stdout) != 0 || ferror(stdout)) {
        struct plmi_cli_talk talk;
        plmi_cli_talk_init(&talk);
        plmi_cli_talk_usage(&talk, PLM_LEVEL_ERROR, "standard output cannot be written");
        return PLMI_CLI_EXIT_TROUBLE;
    }
    return (int)outcome;
}
