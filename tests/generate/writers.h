/*
 * Records as text, in the ways in which recorders and logbooks export them. One function a format, one table.
 * Must not change a figure, but for the units of its format.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_GENERATE_WRITERS_H
#define PLM_GENERATE_WRITERS_H

#include "base/text.h"
#include "generate/record.h"

/* A number with so many digits behind the point; NaN is left empty. */
void gen_write_number(struct plmi_text *out, double value, int digits);
/* "2031-05-04T08:40:00+11:00" of a local clock. */
void gen_write_stamp(struct plmi_text *out, int64_t local_ms, int zone_min);

/* Tables. */
void gen_write_csv(struct plmi_text *out, const struct gen_record *records, int count);
void gen_write_csv_semicolon(struct plmi_text *out, const struct gen_record *records, int count);
void gen_write_csv_feet(struct plmi_text *out, const struct gen_record *records, int count);
void gen_write_csv_pressure(struct plmi_text *out, const struct gen_record *records, int count);
void gen_write_csv_preamble(struct plmi_text *out, const struct gen_record *records, int count);
/* Dive cards: who, when and by which plan; and what was breathed too. */
void gen_write_card(struct plmi_text *out, const struct gen_record *records, int count);
void gen_write_card_gas(struct plmi_text *out, const struct gen_record *records, int count);
/* XML, several records a file. plans[i] may be NULL: kept with the dive. */
void gen_write_uddf(struct plmi_text *out, const struct gen_record *records, int count, const struct gen_record *plans);
void gen_write_uddf_2(struct plmi_text *out, const struct gen_record *records, int count);

/* The same piece by piece: head with all mixes, dives, tail. */
#define GEN_FILE_MIXES 128
struct gen_mixes {
    struct plm_mix mix[GEN_FILE_MIXES];
    int count;
};
/* Adds the mixes of a dive. */
void gen_mixes_take(struct gen_mixes *mixes, const struct gen_dive *dive);
void gen_uddf_begin(struct plmi_text *out, const struct gen_record *record, const struct gen_mixes *mixes);
/* number: from 1. before: the dive before it in the file, NULL none. plan: NULL none. */
void gen_uddf_dive(struct plmi_text *out, const struct gen_record *record, int number, const struct gen_record *before,
                   const struct gen_record *plan, struct gen_mixes *mixes);
void gen_uddf_end(struct plmi_text *out);

/* gzip, without name or date, so that the same bytes give the same file. Returns: false without memory. */
bool gen_gzip(struct plmi_text *text);

#endif
