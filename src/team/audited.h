/*
 * What an audit keeps of a file and of each dive in it, long after the dive itself is gone.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_TEAM_AUDITED_H
#define PLM_TEAM_AUDITED_H

#include <plimsoll/audit.h>

#include "base/arena.h"
#include "team/series.h"
#include "team/completeness.h"

/*
 * A dive: its row, and what pairing needs of the record.
 *   wet_s             [s] deeper than a metre, all together
 *   before_s, after_s [s] of the record before the diver goes under water and after leaving it, as plm_dive_wet tells
 */
struct plmi_audited_dive {
    struct plm_audit_row row;
    struct plmi_series series;
    struct plmi_completeness completeness;
    double wet_s, before_s, after_s;
};

/* A file: filled by one thread, then only read. Texts in the arena. */
struct plmi_audited_file {
    struct plmi_arena arena;
    const char *path;
    struct plmi_audited_dive *dives;
    size_t count, capacity;
    struct plm_audit_trouble trouble; /* file NULL: none */
    bool passed_over, no_memory;
};

/* Adds a debriefed dive. Returns: its row, NULL without memory. */
struct plm_audit_row *plmi_audited_dive_add(struct plmi_audited_file *file, const struct plm_debriefed *debriefed);
void plmi_audited_file_free(struct plmi_audited_file *file);

#endif
