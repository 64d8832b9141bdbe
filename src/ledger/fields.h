/*
 * What the columns of a row can hold, as tables.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_LEDGER_FIELDS_H
#define PLM_LEDGER_FIELDS_H

#include "ledger/ledger.h"

enum plmi_field_kind { PLMI_FIELD_INTEGER, PLMI_FIELD_NUMBER, PLMI_FIELD_TEXT, PLMI_FIELD_TISSUE };

struct plmi_field {
    int column;       /* place in the row                                             */
    const char *name; /* as the schema has it                                         */
    enum plmi_field_kind kind;
    double min, max; /* of the value; TEXT: of its bytes; TISSUE: [bar] of a tension */
    bool unknown;    /* NULL is allowed                                              */
};

/* Starts within the years that a stamp can have, 1900 to 2200 in any zone: days -25568 to 84372 since 1970. */
#define PLMI_START_MIN_MS (-25568.0 * 86400000)
#define PLMI_START_MAX_MS (84372.0 * 86400000)
/* Longer than any record: rules let a dive be 1000 h; whole records stay below ten thousand days. */
#define PLMI_SPAN_MAX_MS (10000.0 * 86400000)
/* Counts and figures beyond this are no one's; sums of them stay exact or finite. */
#define PLMI_COUNT_MAX       1e9
#define PLMI_FIGURE_MAX      1e12
#define PLMI_TEXT_MAX        16777216
#define PLMI_TENSION_MIN_BAR (-0.001)
#define PLMI_TENSION_MAX_BAR 10000
#define PLMI_OFFSET_MAX_MIN  1080

/* Fields of a span in five columns from a place on. */
#define PLMI_FIELDS_SPAN(first)                                                                            \
    {(first), "start_utc_ms", PLMI_FIELD_INTEGER, PLMI_START_MIN_MS, PLMI_START_MAX_MS, false},            \
        {(first) + 1, "offset_min", PLMI_FIELD_INTEGER, -PLMI_OFFSET_MAX_MIN, PLMI_OFFSET_MAX_MIN, false}, \
        {(first) + 2, "duration_ms", PLMI_FIELD_INTEGER, 0, PLMI_SPAN_MAX_MS, false},                      \
        {(first) + 3, "wet_from_ms", PLMI_FIELD_INTEGER, -PLMI_SPAN_MAX_MS, PLMI_SPAN_MAX_MS, false},      \
    {                                                                                                      \
        (first) + 4, "wet_to_ms", PLMI_FIELD_INTEGER, -PLMI_SPAN_MAX_MS, PLMI_SPAN_MAX_MS, false           \
    }

/* Reports each field that is not what it can be, with the dive. Returns: whether all are sound. */
bool plmi_ledger_fields_sound(struct plm_ledger *ledger, sqlite3_stmt *row, const struct plmi_field *fields,
                              size_t count, int64_t exposure);

#endif
