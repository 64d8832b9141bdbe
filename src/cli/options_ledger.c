/*
 * Options on the exposure ledger, shared by the commands over it and by those that begin with what it knows. Must not
 * open it.
 * SPDX-License-Identifier: MIT
 */
#include "cli/diver_file.h"
#include "cli/ledger.h"

static const char *set_ledger(struct plmi_cli_settings *settings, const char *value)
{
    settings->ledger = value;
    settings->carry = true;
    return value[0] != '\0' ? NULL : "the name of a file";
}

static const char *set_diver(struct plmi_cli_settings *settings, const char *value)
{
    settings->diver = value;
    return plmi_cli_diver_expected(value);
}

static const char *set_carried_diver(struct plmi_cli_settings *settings, const char *value)
{
    settings->carry = true;
    return set_diver(settings, value);
}

static const struct plmi_cli_option ledger_rows[] = {
    {"ledger", 0, "FILE",
     "the ledger; else the one that PLIMSOLL_LEDGER names, else plimsoll/exposures.ledger in the XDG data home",
     set_ledger},
};

const struct plmi_cli_options plmi_cli_options_ledger = {"The ledger", ledger_rows,
                                                         sizeof ledger_rows / sizeof ledger_rows[0]};

static const struct plmi_cli_option carried_rows[] = {
    {"ledger", 0, "FILE", "begin with what the diver carries by this exposure ledger", set_ledger},
    {"diver", 0, "NAME",
     "whose dives these are, before what log and card say; without --ledger, by the ledger of plimsoll ledger",
     set_carried_diver},
};

const struct plmi_cli_options plmi_cli_options_carried = {"What is carried", carried_rows,
                                                          sizeof carried_rows / sizeof carried_rows[0]};

static const struct plmi_cli_option adding_rows[] = {
    {"diver", 0, "NAME", "whose dives these are, before what log and card say", set_diver},
};

const struct plmi_cli_options plmi_cli_options_adding = {"What is added", adding_rows,
                                                         sizeof adding_rows / sizeof adding_rows[0]};
