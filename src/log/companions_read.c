/*
 * Reads the card that lies beside a log. Must not lay it over anything.
 * SPDX-License-Identifier: MIT
 */
#include <plimsoll/companions.h>

#include <stdlib.h>

#include "log/companions.h"

enum plm_status plm_companions_read(struct plm_companions *out, const char *log, const char *card_path,
                                    const char *plan_path, const struct plm_rules *rules,
                                    const struct plm_diag_sink *sink)
{
    struct plm_source *source = NULL;
    (void)plan_path;
    *out = (struct plm_companions){.card = NULL};
    enum plm_status status = plmi_companions_card_find(&out->card_path, log, card_path, sink);
    if (status == PLM_STATUS_OK && out->card_path != NULL) {
        status = plm_source_open_regular(&source, out->card_path, rules, sink);
    }
    if (source != NULL) {
        status = plm_card_read(&out->card, source, rules, sink);
    }
    plm_source_free(source);
    return status;
}

void plm_companions_free(struct plm_companions *beside)
{
    plm_card_free(beside->card);
    free(beside->card_path);
    *beside = (struct plm_companions){.card = NULL};
}
