/*
 * Rules as a ledger keeps them beside a record: all of them, as the text of a rules file; those that stand before what
 * card and log tell once more in a section [stated].
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_LOGBOOK_KEPT_RULES_H
#define PLM_LOGBOOK_KEPT_RULES_H

#include <plimsoll/diag.h>
#include <plimsoll/rules.h>

/* The rules that were read last. text NULL: none. */
struct plmi_kept_rules {
    char *text;
    struct plm_rules rules;
    struct plm_rules_stated stated;
};

/* All rules in force as a rules file. stated: NULL none. The caller frees. Returns: NULL without memory. */
char *plmi_kept_rules_write(const struct plm_rules *rules, const struct plm_rules_stated *stated);
/* Reads them back; the last text is read once. stated: [out] NULL is allowed. Returns: as plm_rules_read. */
enum plm_status plmi_kept_rules_read(struct plmi_kept_rules *kept, const char *text, struct plm_rules *rules,
                                     struct plm_rules_stated *stated, const struct plm_diag_sink *sink);
void plmi_kept_rules_free(struct plmi_kept_rules *kept);

#endif
