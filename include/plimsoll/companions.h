/*
 * The dive card that lies beside a log.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_COMPANIONS_H
#define PLM_COMPANIONS_H

#include <plimsoll/card.h>

#ifdef __cplusplus
extern "C" {
#endif

/* NULL where there is none. The caller frees all with plm_companions_free. */
struct plm_companions {
    struct plm_card *card;
    char *card_path;
};

/* Finds and reads it, as plm_log_open does. Returns: OK, or an error that is reported; *out can be freed either way. */
PLM_API enum plm_status plm_companions_read(struct plm_companions *out, const char *log, const char *card_path,
                                            const char *plan_path, const struct plm_rules *rules,
                                            const struct plm_diag_sink *sink);
/* Frees what it holds. */
PLM_API void plm_companions_free(struct plm_companions *beside);

#ifdef __cplusplus
}
#endif

#endif
