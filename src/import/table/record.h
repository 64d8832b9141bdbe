/*
 * One row of a table read by its plan: values in our units, settings where the row tells them.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_IMPORT_TABLE_RECORD_H
#define PLM_IMPORT_TABLE_RECORD_H

#include "import/table/plan.h"

struct plmi_row_values {
    int64_t time_ms;          /* elapsed, or local clock since 1970 */
    struct plm_sample sample; /* time_ms and setting not filled */
    bool has_time, has_depth;
    bool unreadable; /* time or depth stands there and cannot be read, which was reported */
    bool has_mode, has_setpoint, has_o2, has_he;
    enum plm_mode mode;
    double setpoint_bar, o2_frac, he_frac;
    char dive[128];     /* number of the dive as written, "" none; cut where it is longer, which is reported */
    uint64_t dive_hash; /* of the whole of it */
    const char *events; /* of this moment, as written; borrowed from the row, NULL none */
};

/* What reading a row needs to know of the rows before it. */
struct plmi_row_reader {
    struct plmi_table_plan *plan;
    struct plmi_diags *diags;
    int64_t rows; /* of data so far */
    bool partial; /* something of the table is not in the records */
    bool clock_seen;
    int64_t last_clock_ms; /* date and clock of the last row */
    int64_t carry_ms;      /* whole days that midnights added */
    char date[48];         /* the last date as written, and as days */
    int64_t date_ms;
    bool zone_seen; /* of stamps: offset_min is that of the first */
    int offset_min;
};

/*
 * Reads a row. What cannot be read is left out and reported at its place.
 * Returns: OK; INPUT where guessing would be dangerous (a mix that cannot be), reported.
 */
enum plm_status plmi_row_values_read(struct plmi_row_reader *reader, const struct plmi_row *row,
                                     struct plmi_row_values *record);

#endif
