/*
 * The formats of a reconciliation; what: a struct plm_report_reconciled.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REPORT_TEAM_RECONCILE_H
#define PLM_REPORT_TEAM_RECONCILE_H

#include <plimsoll/report_team.h>

#include "base/text.h"

void plmi_reconciliation_text(struct plmi_text *out, const void *what, const struct plm_report_options *options);
void plmi_reconciliation_json(struct plmi_text *out, const void *what, const struct plm_report_options *options);

#endif
