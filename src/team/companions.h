/*
 * Names of what lies beside a log.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_TEAM_COMPANIONS_H
#define PLM_TEAM_COMPANIONS_H

#include <plimsoll/companions.h>

/* Whether a file is a card by its name: it ends in .card. */
bool plmi_companions_is_card(const char *path);
/* A file named beside another, on the heap; NULL without memory. */
char *plmi_companions_path(const char *path, const char *name);
/* The plan that a card names, as a path on the heap; NULL where it names none or cannot be read. Returns: false without
 * memory. */
bool plmi_companions_plan_named(char **plan, const char *card_path, const struct plm_rules *rules);

#endif
