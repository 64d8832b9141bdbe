/*
 * What lies beside a log: its card, and the plan that the card names.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_TEAM_BESIDE_H
#define PLM_TEAM_BESIDE_H

#include <plimsoll/card.h>

#include "base/arena.h"

/* Whether a file is a card by its name: it ends in .card. */
bool plmi_beside_is_card(const char *path);
/* The log's name with .card in place of its ending; NULL without memory. */
const char *plmi_beside_card_path(struct plmi_arena *arena, const char *log_path);
/* A file named beside another; NULL without memory. */
const char *plmi_beside_path(struct plmi_arena *arena, const char *path, const char *name);
/* The first dive of a file. Returns: as plm_import_next; INPUT (reported) where it holds none. */
enum plm_status plmi_beside_plan_read(struct plm_dive **out, const char *path, const struct plm_rules *rules, const struct plm_diag_sink *sink);

#endif
