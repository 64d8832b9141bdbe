/*
 * --help from the tables. Must not name an option or a command of its own.
 * SPDX-License-Identifier: MIT
 */
#include <stdio.h>
#include <string.h>

#include <plimsoll/version.h>

#include "cli/command.h"

#define COLUMNS 80
#define NAME_COLUMNS 23

/* Prints words behind an indent, wrapped; the cursor stands at column `at`. */
static void wrapped_print(const char *text, int at, int indent)
{
    int column = at;
    while (*text != '\0') {
        int length = (int)strcspn(text, " ");
        if (column > indent && column + 1 + length > COLUMNS) {
            printf("\n%*s", indent, "");
            column = indent;
        } else if (column > indent) {
            putchar(' ');
            column++;
        }
        printf("%.*s", length, text);
        column += length;
        text += length;
        text += strspn(text, " ");
    }
    putchar('\n');
}

static void option_print(const struct plmi_cli_option *option)
{
    char left[64];
    int length = option->letter != 0 ? snprintf(left, sizeof left, "  -%c, --%s", option->letter, option->name)
                                     : snprintf(left, sizeof left, "  --%s", option->name);
    if (option->argument != NULL)
        length += snprintf(left + length, sizeof left - (size_t)length, " %s", option->argument);
    printf("%s\n%*s", left, 8, "");
    wrapped_print(option->help, 8, 8);
}

void plmi_cli_help_command(const struct plmi_cli_command *command)
{
    bool any = command->options[0] != NULL;
    printf("usage: plimsoll %s%s%s%s\n\n", command->name, any ? " [OPTION...]" : "", command->operands[0] != '\0' ? " " : "",
           command->operands);
    wrapped_print(command->summary, 0, 0);
    for (const struct plmi_cli_options *const *group = command->options; *group != NULL; group++) {
        printf("\n%s:\n", (*group)->heading);
        for (size_t i = 0; i < (*group)->count; i++)
            option_print(&(*group)->rows[i]);
    }
}

static void command_print(const struct plmi_cli_command *command)
{
    int length = printf("  %s%s%s", command->name, command->operands[0] != '\0' ? " " : "", command->operands);
    if (length < NAME_COLUMNS)
        printf("%*s", NAME_COLUMNS - length, "");
    else
        printf("\n%*s", NAME_COLUMNS, "");
    wrapped_print(command->summary, NAME_COLUMNS, NAME_COLUMNS);
}

void plmi_cli_help_parts(const struct plmi_cli_command *command)
{
    printf("usage: plimsoll %s COMMAND [OPTION...] [OPERAND...]\n\n", command->name);
    wrapped_print(command->summary, 0, 0);
    printf("\n");
    for (size_t i = 0; command->parts[i] != NULL; i++)
        command_print(command->parts[i]);
    printf("\n  plimsoll %s COMMAND --help   the options of a command\n", command->name);
}

void plmi_cli_help_program(void)
{
    size_t count;
    const struct plmi_cli_command *const *commands = plmi_cli_commands(&count);
    printf("usage: plimsoll COMMAND [OPTION...] [OPERAND...]\n\n"
           "Reviews dives after they were dived, from the logs of their recorders.\n\n");
    for (size_t i = 0; i < count; i++)
        command_print(commands[i]);
    printf("\n  plimsoll COMMAND --help   the options of a command\n"
           "  plimsoll --version        the version\n\n"
           "A LOG named - is standard input. Exit status: 0 nothing found at or above\n"
           "--fail-on, 1 found, 2 some input not used, 3 wrong usage or no way to write.\n\n"
           "A model of average tissue, no proof that a dive was safe, and not for planning.\n"
           "With symptoms call the emergency services and a diving doctor at once.\n");
}
