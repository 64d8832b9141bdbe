/*
 * What the command line asks for, in plain values. Filled by options, read by commands.
 * Includes public headers of the library only.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_CLI_SETTINGS_H
#define PLM_CLI_SETTINGS_H

#include <stdbool.h>
#include <stddef.h>

#include <plimsoll/findings.h>
#include <plimsoll/report.h>
#include <plimsoll/rules.h>
#include <plimsoll/rules_file.h>
#include <plimsoll/stamp.h>

#include "cli/talk.h"

/* Rules: one index for each line of the table. */
enum plmi_cli_rule {
#define PLM_RULE(key, value, unit, min, max, meaning, source) PLMI_CLI_RULE_##key,
#define PLM_RULE_CHOICE(key, value, words, meaning, source)   PLMI_CLI_RULE_##key,
#include <plimsoll/rules.def>
#undef PLM_RULE
#undef PLM_RULE_CHOICE
    PLMI_CLI_RULE_COUNT
};

#define PLMI_CLI_RULES_FILES_MAX 16

/* Rules as given on the command line; files first, single options over them. */
struct plmi_cli_rules_given {
    const char *files[PLMI_CLI_RULES_FILES_MAX];
    int file_count;
    const char *texts[PLMI_CLI_RULE_COUNT]; /* as options gave them; NULL: not given          */
    char gf_low[16];                        /* text of the first of --gf                     */
};

struct plmi_cli_settings {
    struct plmi_cli_rules_given rules_given;
    struct plm_rules rules;           /* in force, once plmi_cli_settings_settle ran   */
    struct plm_rule_origins *origins; /* and where each was set                        */
    struct plm_rules_stated stated;   /* those of them that are no defaults            */
    /* the dive */
    double surface_bar, altitude_m, water_kg_m3; /* NaN: not given                           */
    const char *card, *plan, *start;             /* NULL: not given                                */
    long dive;                                   /* 0: all                                        */
    const char *diver;                           /* NULL: all, or as the log says                 */
    const char *merge;                           /* NULL: no                                      */
    const char *only;                            /* an audit of one diver; NULL: all              */
    bool add;                                    /* an audit adds to the ledger what it read      */
    const char *since;                           /* NULL: all                                     */
    const char *zone;                            /* for starts without one; NULL: not given        */
    const char *ledger;                          /* NULL: not given                                */
    struct plm_stamp from, to, at;               /* not known: not given                           */
    bool carry;                                  /* begin with what the ledger knows              */
    bool yes, recompute, renew;
    long jobs; /* 0: as many as there are cores                 */
    /* reading */
    const char *columns, *date_order; /* NULL: not given                                */
    double interval_s;                /* 0: not given                                   */
    bool zero_auto;
    /* the answer */
    enum plm_report_subject report; /* of the command                             */
    const char *format, *output;    /* NULL: the command's first; standard output    */
    char formats[64];               /* what a format should have been                */
    const char *findings_format;    /* NULL: no                                      */
    const char *write_edited;       /* folder; NULL: no                              */
    bool no_schedule, verbose, ascii;
    enum plm_severity fail_on;
    bool fail_never;
};

void plmi_cli_settings_init(struct plmi_cli_settings *settings);
void plmi_cli_settings_free(struct plmi_cli_settings *settings);
/* Sets one rule from the command line; value is borrowed. Returns: false when it is none that the rule can have. */
bool plmi_cli_settings_rule(struct plmi_cli_settings *settings, enum plmi_cli_rule rule, const char *value);
/* Defaults, then files in their order, then the options. Returns: false when reported. */
bool plmi_cli_settings_settle(struct plmi_cli_settings *settings, struct plmi_cli_talk *talk);

#endif
