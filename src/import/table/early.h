/*
 * Samples at depths that cannot be, met before the dive that they belong to was begun.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_IMPORT_TABLE_EARLY_H
#define PLM_IMPORT_TABLE_EARLY_H

#include <plimsoll/dive_builder.h>

#include "base/diags.h"

struct plmi_early {
    struct plm_sample samples[PLM_ODD_SAMPLES]; /* by the times of the table */
    size_t count;
};

/* Keeps a sample. Returns: false where there is no room. */
bool plmi_early_keep(struct plmi_early *early, const struct plm_sample *sample);
/* Hands all to the builder of the dive that begins at base_ms, which drops and reports them. Returns: as
 * plm_dive_builder_sample. */
enum plm_status plmi_early_hand_over(struct plmi_early *early, struct plm_dive_builder *builder, int64_t base_ms);
/* Reports one that belongs to no dive. */
void plmi_early_report(const struct plm_sample *sample, const struct plm_rules *rules, struct plmi_diags *diags);

#endif
