/*
 * Rules from files and command lines, with where each was set. Files are INI: `key = value`, sections free.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_RULES_FILE_H
#define PLM_RULES_FILE_H

#include <plimsoll/diag.h>
#include <plimsoll/rules.h>
#include <plimsoll/source.h>

#ifdef __cplusplus
extern "C" {
#endif

struct plm_rule_origins; /* opaque: for each rule where its value comes from */

/* All "default". NULL without memory. */
PLM_API struct plm_rule_origins *plm_rule_origins_new(void);
/* NULL is allowed. */
PLM_API void plm_rule_origins_free(struct plm_rule_origins *origins);
/* "default", "FILE:LINE", or as given to plm_rules_set_from ("command line"); never NULL. */
PLM_API const char *plm_rule_origin(const struct plm_rule_origins *origins, const char *key);

/*
 * Lays a rules file over rules; later ones win. Every bad line is reported with file and line and the nearest known
 * key.
 *   origins  NULL is allowed
 * Returns: OK; INPUT, IO or LIMIT (reported): rules are unchanged then.
 */
PLM_API enum plm_status plm_rules_read(struct plm_rules *rules, struct plm_rule_origins *origins,
                                       struct plm_source *source, const struct plm_diag_sink *sink);

/* plm_rules_set with the origin stated, as "command line". Returns: as plm_rules_set, or MEMORY; an error is not
 * reported. */
PLM_API enum plm_status plm_rules_set_from(struct plm_rules *rules, struct plm_rule_origins *origins, const char *key,
                                           const char *text, const char *origin);

#ifdef __cplusplus
}
#endif

#endif
