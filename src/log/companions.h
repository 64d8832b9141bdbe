/*
 * Where things lie that belong to a log: its dive card, of the same name with .card for its ending (x.card beside
 * x.csv and x.csv.gz), and the plan that the card names.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_LOG_COMPANIONS_H
#define PLM_LOG_COMPANIONS_H

#include <plimsoll/card.h>

/* Whether a file is a card by its name: it ends in .card. */
bool plmi_companions_is_card(const char *path);
/* A file named beside another, on the heap; NULL without memory. */
char *plmi_companions_path(const char *path, const char *name);
/* The plan that a card names, as a path on the heap; NULL where it names none or cannot be read. Returns: false without
 * memory. */
bool plmi_companions_plan_named(char **plan, const char *card_path, const struct plm_rules *rules);

/*
 * The card of a log; one found beside it is reported as a note, and has to lie in the log's folder.
 *
 *   path  [out] on the heap; NULL there is none
 *   log   "-" has nothing beside it
 *   reported  this card in place of the one beside the log; NULL: look there
 *
 * Returns: OK, INPUT, MEMORY reported; *path is to be freed either way.
 */
enum plm_status plmi_companions_card_find(char **path, const char *log, const char *stated,
                                          const struct plm_diag_sink *sink);
/*
 * The plan of a log; one that a card names has to lie in the card's folder.
 *
 *   path  [out] on the heap; NULL there is none
 *   reported  this plan in place of the card's; NULL: the card's
 *   name  of the plan in the card; NULL none
 *
 * Returns: OK, INPUT, MEMORY reported; *path is to be freed either way.
 */
enum plm_status plmi_companions_plan_find(char **path, const char *stated, const char *card_path, const char *name,
                                          const struct plm_diag_sink *sink);

#endif
