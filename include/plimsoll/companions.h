/*
 * What lies beside a log: its dive card, of the same name with .card for its ending, and the plan that the card names.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_COMPANIONS_H
#define PLM_COMPANIONS_H

#include <stdbool.h>

#include <plimsoll/card.h>
#include <plimsoll/dive.h>

#ifdef __cplusplus
extern "C" {
#endif

/* NULL where there is none. The caller frees all with plm_companions_free. */
struct plm_companions {
    struct plm_card *card;
    struct plm_dive *plan;
    char *card_path, *plan_path;
    bool plan_partial; /* something in the plan's file is not in the plan */
};

/*
 * Finds and reads them, regular files all: nothing else is opened. A card that lies there, and the plan that a card
 * names, have to lie in the folder of the log or of the card, or below it, once all links are followed. A card found
 * beside the log is told by a note.
 *   log        "-" and other names without a file beside them are allowed
 *   card_path  this card in place of the one beside the log; NULL: look there
 *   plan_path  this plan in place of the card's; NULL: the card's
 * Returns: OK, or an error that is reported; *out can be freed either way.
 */
PLM_API enum plm_status plm_companions_read(struct plm_companions *out, const char *log, const char *card_path,
                                            const char *plan_path, const struct plm_rules *rules,
                                            const struct plm_diag_sink *sink);
/*
 * Their paths alone, as plm_companions_read would take them; a card is looked into for the plan that it names. Reports
 * nothing.
 * Returns: OK, MEMORY; *out can be freed either way.
 */
PLM_API enum plm_status plm_companions_find(struct plm_companions *out, const char *log, const char *card_path,
                                            const char *plan_path, const struct plm_rules *rules);
/* Frees what it holds. */
PLM_API void plm_companions_free(struct plm_companions *beside);

#ifdef __cplusplus
}
#endif

#endif
