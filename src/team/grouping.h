/*
 * Which rows are one dive, which dives are a team's, whose clock cannot be right.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_TEAM_GROUPING_H
#define PLM_TEAM_GROUPING_H

#include <stdbool.h>

#include "team/audited.h"

/* Records of one diver's one dive: other record of the less complete ones points at the more complete. threads as in
 * jobs.h. */
void plmi_pair_rows(struct plmi_audited_dive *const *dives, size_t count, size_t threads);
/* Team dives by overlap in the water and like depth, numbered by who goes under water first; other records share their
 * better's. Returns: false without memory. */
bool plmi_team_rows(struct plmi_audited_dive *const *dives, size_t count);
/* Clocks: a dive that lies beside its team's but for its clock; other records with clocks apart. */
void plmi_doubt_rows(struct plmi_audited_dive *const *dives, size_t count, size_t threads);
/* OTU of each diver's day, other records counted once. */
void plmi_day_rows(struct plmi_audited_dive *const *dives, size_t count);

/* Both named and the same; both named and not the same. */
bool plmi_same_diver(const struct plm_audit_row *a, const struct plm_audit_row *b);
bool plmi_other_diver(const struct plm_audit_row *a, const struct plm_audit_row *b);
/* [s] start of b less start of a; by UTC where both zones are known, else as the clocks stand; NaN unknown. */
double plmi_start_apart_s(const struct plm_audit_row *a, const struct plm_audit_row *b);
/* [s] b under water less a under water, by the same clocks; NaN unknown. */
double plmi_wet_apart_s(const struct plmi_audited_dive *a, const struct plmi_audited_dive *b);
/* [s] from going under water to leaving it. */
double plmi_wet_length_s(const struct plmi_audited_dive *audited);

#endif
