/*
 * Commands and their options as const tables: one row gives parsing, --help and, held by a test, the manual.
 * Includes public headers of the library only; keeps no state outside struct plmi_cli_call.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_CLI_COMMAND_H
#define PLM_CLI_COMMAND_H

#include <stdbool.h>
#include <stddef.h>

#include "cli/parts.h"
#include "cli/settings.h"
#include "cli/talk.h"

/* Exit status; the worst of a run wins. */
enum plmi_cli_exit {
    PLMI_CLI_EXIT_CLEAR = 0,   /* ran; nothing at or above --fail-on        */
    PLMI_CLI_EXIT_FOUND = 1,   /* findings at or above it                   */
    PLMI_CLI_EXIT_PARTIAL = 2, /* some input unusable, or used in part only */
    PLMI_CLI_EXIT_TROUBLE = 3  /* wrong usage, no memory, output failed     */
};

struct plmi_cli_option {
    const char *name;     /* without its dashes                              */
    char letter;          /* 0: none                                         */
    const char *argument; /* as --help names it; NULL: a flag; "": the formats of the command's report */
    const char *help;     /* one sentence without a full stop                */
    /* Takes a value ("" for a flag), borrowed for the run. Returns: NULL, or in words what it should have been. */
    const char *(*set)(struct plmi_cli_settings *settings, const char *value);
};

/* Options under one heading of --help. */
struct plmi_cli_options {
    const char *heading;
    const struct plmi_cli_option *rows;
    size_t count;
};

struct plmi_cli_call;

struct plmi_cli_command {
    const char *name;
    const char *operands;                          /* as "LOG..."; "" none                            */
    const char *summary;                           /* one line without a full stop                    */
    int operands_min, operands_max;                /* -1: no bound                               */
    bool reads;                                    /* operands are logs, or folders of them           */
    enum plm_report_subject report;                /* whose formats --format takes                    */
    const struct plmi_cli_options *const *options; /* ends with NULL; --help is understood by all */
    enum plmi_cli_exit (*run)(struct plmi_cli_call *call);
    /* commands by their second word, ends with NULL: run is NULL; NULL: none */
    const struct plmi_cli_command *const *parts;
};

/* One run of one command. */
struct plmi_cli_call {
    const struct plmi_cli_command *command;
    struct plmi_cli_settings settings;
    struct plmi_cli_talk talk;
    const char **operands; /* borrowed from argv */
    int operand_count;
    struct plmi_cli_parts *parts;
    struct plmi_cli_input *inputs; /* inputs.h; NULL until they are asked for */
};

const struct plmi_cli_command *const *plmi_cli_commands(size_t *count);

/* The program. parts are watched. Returns: its exit status. */
int plmi_cli_run(int argc, char **argv, struct plmi_cli_parts *parts);

/* Reads the arguments behind the command's name into settings and operands. Returns: false when reported. */
bool plmi_cli_arguments_read(struct plmi_cli_call *call, int argc, char **argv, bool *help);

/* --help of the program, and of one command, to standard output. */
void plmi_cli_help_program(const struct plmi_cli_command *const *commands, size_t count);
void plmi_cli_help_command(const struct plmi_cli_command *command);
/* --help of a command that has commands of its own. */
void plmi_cli_help_parts(const struct plmi_cli_command *command);

enum plmi_cli_exit plmi_cli_worse(enum plmi_cli_exit a, enum plmi_cli_exit b);
/* What a status of reading or of judging an input comes to. */
enum plmi_cli_exit plmi_cli_exit_of(enum plm_status status);

/* How an option's argument is named, in buffer where it is made. */
const char *plmi_cli_argument_name(const struct plmi_cli_command *command, const struct plmi_cli_option *option,
                                   char *buffer, size_t size);

/* Setters of options that several commands share. */
/* Whether a report has a format of this name. Returns: NULL, or in words what it should have been. */
const char *plmi_cli_format_expected(struct plmi_cli_settings *settings, enum plm_report_subject report,
                                     const char *value);
const char *plmi_cli_set_format(struct plmi_cli_settings *settings, const char *value);
const char *plmi_cli_set_output(struct plmi_cli_settings *settings, const char *value);
const char *plmi_cli_set_ascii(struct plmi_cli_settings *settings, const char *value);
const char *plmi_cli_set_fail_on(struct plmi_cli_settings *settings, const char *value);

/* Option groups that several commands share. */
extern const struct plmi_cli_options plmi_cli_options_model;
extern const struct plmi_cli_options plmi_cli_options_reading;

/* The commands, one file each. */
extern const struct plmi_cli_command plmi_cli_command_debrief;
extern const struct plmi_cli_command plmi_cli_command_explain;
extern const struct plmi_cli_command plmi_cli_command_export;
extern const struct plmi_cli_command plmi_cli_command_rules;
extern const struct plmi_cli_command plmi_cli_command_formats;
extern const struct plmi_cli_command plmi_cli_command_handover;
extern const struct plmi_cli_command plmi_cli_command_trace;
extern const struct plmi_cli_command plmi_cli_command_reconcile;
extern const struct plmi_cli_command plmi_cli_command_audit;
extern const struct plmi_cli_command plmi_cli_command_ledger;

#endif
