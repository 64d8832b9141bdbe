/*
 * plimsoll formats: the formats that are read; with a log, what was understood of it, with the evidence, and the dives
 * it holds. Must not replay.
 * SPDX-License-Identifier: MIT
 */
#include <stdio.h>
#include <string.h>

#include <plimsoll/verdict.h>

#include "cli/print.h"
#include "cli/run_logs.h"

enum { LABEL = 20, WIDTH = 79 };

static const struct plmi_cli_options *const groups[] = {&plmi_cli_options_reading, NULL};

/* A label, and words behind it that go on below one another within the width of a page. */
static void write_row(const char *label, const char *words)
{
    int column = plmi_cli_print(stdout, "  %-*s", LABEL - 2, label);
    if (column >= LABEL + 1) {
        plmi_cli_print(stdout, "\n%*s", LABEL, "");
    }
    column = LABEL;
    while (*words != '\0') {
        int n = (int)strcspn(words, " ");
        if (column > LABEL && column + 1 + n > WIDTH) {
            plmi_cli_print(stdout, "\n%*s", LABEL, "");
            column = LABEL;
        }
        column += plmi_cli_print(stdout, "%s%.*s", column > LABEL ? " " : "", n, words);
        words += n + (words[n] == ' ');
    }
    plmi_cli_print(stdout, "\n");
}

static void write_fact(const char *what, const char *found, const char *evidence)
{
    char words[1200];
    (void)snprintf(words, sizeof words, "%s%s%s%s", found, evidence[0] != '\0' ? " (" : "", evidence,
                   evidence[0] != '\0' ? ")" : "");
    write_row(what, words);
}

static void write_column(const struct plm_verdict_column *column)
{
    char label[32];
    char found[600];
    (void)snprintf(label, sizeof label, "Column %zu%s", column->index, column->guessed ? " ?" : "");
    (void)snprintf(found, sizeof found, "%.200s%s%s%s%s", column->header, column->header[0] != '\0' ? ": " : "",
                   column->meaning, column->unit[0] != '\0' ? " in " : "", column->unit);
    write_fact(label, found, column->evidence);
}

static bool write_verdict(const struct plm_verdict *verdict)
{
    bool guessed = false;
    write_fact("Format", verdict->format, verdict->summary);
    for (size_t i = 0; i < verdict->fact_count; i++) {
        write_fact(verdict->facts[i].what, verdict->facts[i].found, verdict->facts[i].evidence);
    }
    for (size_t i = 0; i < verdict->column_count; i++) {
        write_column(&verdict->columns[i]);
        guessed = guessed || verdict->columns[i].guessed;
    }
    return guessed;
}

static double deepest_m(const struct plm_sample *samples, size_t count)
{
    double deepest = 0;
    for (size_t i = 0; i < count; i++) {
        deepest = samples[i].depth_m > deepest ? samples[i].depth_m : deepest;
    }
    return deepest;
}

static void write_dive(const struct plm_dive *dive)
{
    const struct plm_dive_info *info = plm_dive_info_get(dive);
    size_t count, setting_count, mix_count;
    const struct plm_sample *samples = plm_dive_samples(dive, &count);
    const struct plm_setting *settings = plm_dive_settings(dive, &setting_count);
    const struct plm_dive_mix *mixes = plm_dive_mixes(dive, &mix_count);
    char label[32], words[400], mix[32];
    long seconds = (long)((samples[count - 1].time_ms - samples[0].time_ms) / 1000);
    long decimetres = (long)(deepest_m(samples, count) * 10 + 0.5);
    (void)snprintf(label, sizeof label, "Dive %d", info->index);
    (void)snprintf(
        words, sizeof words, "%s%.40s%sfrom line %lu: %zu samples, %ld:%02ld:%02ld h, to %ld.%ld m, begins on %s%s%s",
        info->number != NULL ? "number " : "", info->number != NULL ? info->number : "",
        info->number != NULL ? ", " : "", (unsigned long)info->line, count, seconds / 3600, seconds / 60 % 60,
        seconds % 60, decimetres / 10, decimetres % 10,
        info->gas_known ? plm_mix_name(&mixes[settings[0].mix].mix, mix, (int)sizeof mix) : "a gas that is not told",
        info->mode_known ? ", " : "", info->mode_known ? plm_mode_text(settings[0].mode) : "");
    write_row(label, words);
}

/* The dives of an open log, a line each. */
static enum plm_status write_dives(struct plm_log *log)
{
    struct plm_dive *dive = NULL;
    enum plm_status status;
    plmi_cli_print(stdout, "\nDIVES\n");
    while ((status = plm_log_next(log, &dive)) == PLM_STATUS_OK) {
        write_dive(dive);
        plm_dive_free(dive);
    }
    return status;
}

static enum plmi_cli_exit show_log(struct plmi_cli_call *call, const char *path)
{
    struct plm_log_options options = plmi_cli_log_options(&call->settings);
    struct plm_log *log = NULL;
    bool partial = false;
    options.without_plan = true;
    enum plm_status status = plm_log_open(&log, path, &options, &call->talk.sink);
    if (status == PLM_STATUS_OK) {
        plmi_cli_print(stdout, "%s\n", strcmp(path, "-") == 0 ? "standard input" : path);
        bool guessed = write_verdict(plm_log_verdict(log));
        status = write_dives(log);
        if (guessed) {
            plmi_cli_print(stdout,
                           "\n?  taken from the values, or from a name that was understood in part: check it,\n");
            plmi_cli_print(stdout, "   and say it by hand with --columns where it is wrong\n");
        }
        partial = plm_log_partial(log);
    }
    plm_log_free(log);
    return plmi_cli_worse(plmi_cli_exit_of(status), partial ? PLMI_CLI_EXIT_PARTIAL : PLMI_CLI_EXIT_CLEAR);
}

static void show_formats(void)
{
    const struct plm_format_info *info;
    plmi_cli_print(stdout, "Formats are told by what is in a file, never by its name. Either may be\n");
    plmi_cli_print(stdout, "compressed by gzip.\n\n");
    for (size_t i = 0; (info = plm_import_format_get(i)) != NULL; i++) {
        write_fact(info->name, info->summary, info->refused ? "known by sight, not read" : "");
    }
    plmi_cli_print(stdout, "\nplimsoll formats LOG tells what was understood of a log, column by column.\n");
}

static enum plmi_cli_exit formats_run(struct plmi_cli_call *call)
{
    enum plmi_cli_exit exit = PLMI_CLI_EXIT_CLEAR;
    if (call->operand_count == 0) {
        show_formats();
    }
    for (int i = 0; i < call->operand_count; i++) {
        if (i > 0) {
            plmi_cli_print(stdout, "\n");
        }
        exit = plmi_cli_worse(exit, show_log(call, call->operands[i]));
    }
    if (fflush(stdout) != 0 || ferror(stdout)) {
        plmi_cli_talk_usage(&call->talk, PLM_LEVEL_ERROR, "standard output cannot be written");
        exit = PLMI_CLI_EXIT_TROUBLE;
    }
    return exit;
}

const struct plmi_cli_command plmi_cli_command_formats = {
    .name = "formats",
    .operands = "[LOG...]",
    .summary = "Tells which formats are read, or what was understood of a log and why",
    .operands_min = 0,
    .operands_max = -1,
    .reads = true,
    .options = groups,
    .run = formats_run,
};
