/*
 * --help from the tables. Must not name an option or a command of its own.
 * SPDX-License-Identifier: MIT
 */
#include <stdio.h>
#include <string.h>

#include <plimsoll/version.h>

#include "cli/command.h"
#include "cli/print.h"

#define COLUMNS      80
#define NAME_COLUMNS 23

/* Prints words behind an indent, wrapped; the cursor stands at column `at`. */
static void wrapped_print(const char *text, int at, int indent)
{
    int column = at;
    while (*text != '\0') {
        int length = (int)strcspn(text, " ");
        if (column > indent && column + 1 + length > COLUMNS) {
            plmi_cli_print(stdout, "\n%*s", indent, "");
            column = indent;
        } else if (column > indent) {
            plmi_cli_print(stdout, " ");
            column++;
        }
        plmi_cli_print(stdout, "%.*s", length, text);
        column += length;
        text += length;
        text += strspn(text, " ");
    }
    plmi_cli_print(stdout, "\n");
}

static void option_print(const struct plmi_cli_command *command, const struct plmi_cli_option *option)
{
    char left[64], argument[64];
    int length = option->letter != 0 ? snprintf(left, sizeof left, "  -%c, --%s", option->letter, option->name)
                                     : snprintf(left, sizeof left, "  --%s", option->name);
    if (option->argument != NULL) {
        length += snprintf(left + length, sizeof left - (size_t)length, " %s",
                           plmi_cli_argument_name(command, option, argument, sizeof argument));
    }
    plmi_cli_print(stdout, "%s\n", left);
    plmi_cli_print(stdout, "%*s", 8, "");
    wrapped_print(option->help, 8, 8);
}

void plmi_cli_help_command(const struct plmi_cli_command *command)
{
    bool any = command->options[0] != NULL;
    plmi_cli_print(stdout, "usage: plimsoll %s%s%s%s\n\n", command->name, any ? " [OPTION...]" : "",
                   command->operands[0] != '\0' ? " " : "", command->operands);
    wrapped_print(command->summary, 0, 0);
    for (const struct plmi_cli_options *const *group = command->options; *group != NULL; group++) {
        plmi_cli_print(stdout, "\n%s:\n", (*group)->heading);
        for (size_t i = 0; i < (*group)->count; i++) {
            option_print(command, &(*group)->rows[i]);
        }
    }
}

static void command_print(const struct plmi_cli_command *command)
{
    int length =
        plmi_cli_print(stdout, "  %s%s%s", command->name, command->operands[0] != '\0' ? " " : "", command->operands);
    if (length < NAME_COLUMNS) {
        plmi_cli_print(stdout, "%*s", NAME_COLUMNS - length, "");
    } else {
        plmi_cli_print(stdout, "\n%*s", NAME_COLUMNS, "");
    }
    wrapped_print(command->summary, NAME_COLUMNS, NAME_COLUMNS);
}

void plmi_cli_help_parts(const struct plmi_cli_command *command)
{
    plmi_cli_print(stdout, "usage: plimsoll %s COMMAND [OPTION...] [OPERAND...]\n\n", command->name);
    wrapped_print(command->summary, 0, 0);
    plmi_cli_print(stdout, "\n");
    for (size_t i = 0; command->parts[i] != NULL; i++) {
        command_print(command->parts[i]);
    }
    plmi_cli_print(stdout, "\n  plimsoll %s COMMAND --help   the options of a command\n", command->name);
}

static void lines_print(const char *const *lines, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        plmi_cli_print(stdout, "%s\n", lines[i]);
    }
}

void plmi_cli_help_program(const struct plmi_cli_command *const *commands, size_t count)
{
    static const char *const before[] = {
        "usage: plimsoll COMMAND [OPTION...] [OPERAND...]",
        "",
        "Reviews dives after they were dived, from the logs of their recorders.",
        "",
    };
    static const char *const behind[] = {
        "",
        "  plimsoll COMMAND --help   the options of a command",
        "  plimsoll --version        the version",
        "",
        "A LOG named - is standard input. Exit status: 0 nothing found at or above",
        "--fail-on, 1 found, 2 some input not used, 3 wrong usage or no way to write.",
        "",
        "A model of average tissue, no proof that a dive was safe, and not for planning.",
        "With symptoms call the emergency services and a diving doctor at once.",
    };
    lines_print(before, sizeof before / sizeof before[0]);
    for (size_t i = 0; i < count; i++) {
        command_print(commands[i]);
    }
    lines_print(behind, sizeof behind / sizeof behind[0]);
}
