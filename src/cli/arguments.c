/*
 * Reads the arguments of one command by its table of options. Must not know any option by name, but --help.
 * SPDX-License-Identifier: MIT
 */
#include <string.h>

#include <plimsoll/nearest.h>
#include <plimsoll/report.h>

#include "cli/command.h"

/* The row of an option by name[n], or by letter where name is NULL; NULL for none. */
static const struct plmi_cli_option *option_find(const struct plmi_cli_command *command, const char *name, size_t n,
                                                 char letter)
{
    for (const struct plmi_cli_options *const *group = command->options; *group != NULL; group++) {
        for (size_t i = 0; i < (*group)->count; i++) {
            const struct plmi_cli_option *row = &(*group)->rows[i];
            if (name != NULL ? strlen(row->name) == n && memcmp(row->name, name, n) == 0
                             : row->letter != 0 && row->letter == letter) {
                return row;
            }
        }
    }
    return NULL;
}

static const char *option_nearest(const struct plmi_cli_command *command, const char *name)
{
    struct plm_nearest nearest = plm_nearest_begin(name);
    plm_nearest_offer(&nearest, "help");
    for (const struct plmi_cli_options *const *group = command->options; *group != NULL; group++) {
        for (size_t i = 0; i < (*group)->count; i++) {
            plm_nearest_offer(&nearest, (*group)->rows[i].name);
        }
    }
    return nearest.known;
}

static bool unknown_report(struct plmi_cli_call *call, const char *argument)
{
    plmi_cli_talk_usage(&call->talk, PLM_LEVEL_ERROR, "%s has no option %s; the nearest is --%s", call->command->name,
                        argument, option_nearest(call->command, argument + strspn(argument, "-")));
    return false;
}

const char *plmi_cli_argument_name(const struct plmi_cli_command *command, const struct plmi_cli_option *option,
                                   char *buffer, size_t size)
{
    return option->argument[0] != '\0' ? option->argument
                                       : plm_report_format_names(command->report, "|", "|", buffer, size);
}

static bool option_set(struct plmi_cli_call *call, const struct plmi_cli_option *option, const char *value)
{
    if (option->argument != NULL && value == NULL) {
        char argument[64];
        plmi_cli_talk_usage(&call->talk, PLM_LEVEL_ERROR, "--%s needs a value: %s", option->name,
                            plmi_cli_argument_name(call->command, option, argument, sizeof argument));
        return false;
    }
    if (option->argument == NULL && value != NULL) {
        plmi_cli_talk_usage(&call->talk, PLM_LEVEL_ERROR, "--%s takes no value, but was given \"%s\"", option->name,
                            value);
        return false;
    }
    const char *expected = option->set(&call->settings, value != NULL ? value : "");
    if (expected == NULL) {
        return true;
    }
    plmi_cli_talk_usage(&call->talk, PLM_LEVEL_ERROR, "--%s \"%s\" must be %s", option->name,
                        value != NULL ? value : "", expected);
    return false;
}

/* One argument that starts with '-'; moves *i to the last one used. */
static bool option_read(struct plmi_cli_call *call, int argc, char **argv, int *i, bool *help)
{
    const char *argument = argv[*i];
    const char *name = argument + 2, *value = NULL;
    const struct plmi_cli_option *option;
    if (argument[1] == '-') {
        const char *equals = strchr(name, '=');
        size_t n = equals != NULL ? (size_t)(equals - name) : strlen(name);
        if (n == 4 && memcmp(name, "help", 4) == 0 && equals == NULL) {
            *help = true;
            return true;
        }
        option = option_find(call->command, name, n, 0);
        value = equals != NULL ? equals + 1 : NULL;
    } else {
        option = option_find(call->command, NULL, 0, argument[1]);
        value = argument[2] != '\0' ? argument + 2 : NULL;
    }
    if (option == NULL) {
        return unknown_report(call, argument);
    }
    if (option->argument != NULL && value == NULL && *i + 1 < argc) {
        value = argv[++*i];
    }
    return option_set(call, option, value);
}

static bool operands_check(struct plmi_cli_call *call)
{
    const struct plmi_cli_command *command = call->command;
    if (call->operand_count < command->operands_min) {
        plmi_cli_talk_usage(&call->talk, PLM_LEVEL_ERROR, "%s needs %s; see plimsoll %s --help", command->name,
                            command->operands, command->name);
        return false;
    }
    if (command->operands_max >= 0 && call->operand_count > command->operands_max) {
        plmi_cli_talk_usage(&call->talk, PLM_LEVEL_ERROR, "%s takes %s alone; \"%s\" is one too many", command->name,
                            command->operands_max == 0 ? "options" : command->operands,
                            call->operands[command->operands_max]);
        return false;
    }
    return true;
}

bool plmi_cli_arguments_read(struct plmi_cli_call *call, int argc, char **argv, bool *help)
{
    bool options_over = false;
    for (int i = 0; i < argc; i++) {
        const char *argument = argv[i];
        if (!options_over && strcmp(argument, "--") == 0) {
            options_over = true;
        } else if (options_over || argument[0] != '-' || argument[1] == '\0') {
            call->operands[call->operand_count++] = argument;
        } else if (!option_read(call, argc, argv, &i, help)) {
            return false;
        }
        if (*help) {
            return true;
        }
    }
    return operands_check(call);
}
