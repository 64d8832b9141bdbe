/*
 * One way of writing a dive as a log: a const row of the table in exports.c.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_EXPORT_EXPORTER_H
#define PLM_EXPORT_EXPORTER_H

#include <plimsoll/export.h>

#include "base/arena.h"
#include "base/diags.h"
#include "base/fold.h"
#include "base/text.h"

/* A mix that dives refer to. Texts live in the arena. */
struct plmi_export_mix {
    const char *id, *name;
    double o2_frac, he_frac, n2_frac;
    double po2_max_bar; /* NaN: none */
};

/* Names in the order of their first use; the n-th, from 1, is referred to as "KIND-n". */
struct plmi_export_names {
    const char **name;
    size_t count, capacity;
};

/* Gradient factors [%] that dives refer to; the n-th pair, from 1, is "model-n". */
struct plmi_export_factors {
    double low_pct, high_pct;
};

/* What definitions are made of once all dives are there. */
struct plmi_export_definitions {
    struct plmi_export_mix *mixes;
    size_t mix_count, mix_capacity;
    struct plmi_export_names sites, recorders, tanks, ids;
    struct plmi_export_factors *factors;
    size_t factor_count, factor_capacity;
    const char *owner; /* the diver of the first dive; NULL */
    bool owner_known;  /* there was a first dive */
    int cells;         /* most that any dive has */
};

struct plm_export {
    const struct plmi_exporter *exporter;
    const struct plm_sink *sink;
    const struct plm_diag_sink *diag;
    struct plmi_diags diags;
    struct plmi_arena arena;
    struct plmi_text body; /* of the dives */
    struct plmi_export_definitions definitions;
    int group;  /* repetition group that is open; 0 none */
    int groups; /* opened so far */
    size_t dives;
    bool failed; /* memory ran out */
};

struct plmi_exporter {
    struct plm_export_format format;
    void (*add)(struct plm_export *export, const struct plm_dive *dive); /* to body and definitions */
    void (*write)(struct plm_export *export, struct plmi_text *out);     /* the whole log */
};

extern const struct plmi_exporter plmi_exporter_uddf;
extern const struct plmi_exporter plmi_exporter_csv;

/* A copy that lives as long as the export; "" and export->failed without memory. */
const char *plmi_export_keep(struct plm_export *export, const char *text);
/* Place of a name, from 1; 0 for NULL, "" and without memory. */
size_t plmi_export_name(struct plm_export *export, struct plmi_export_names *names, const char *name);

/* Seconds of a time in milliseconds. */
void plmi_export_seconds(struct plmi_text *out, int64_t time_ms);
/* Rounded to that many digits at most, without zeros at the end. */
void plmi_export_rounded(struct plmi_text *out, double value, int most);
/* A temperature shifted to another zero [C], so that our readers find the same number again. */
void plmi_export_temp(struct plmi_text *out, double temp_c, double zero_c);
/* Whether a text comes back as it is from XML and from a table: UTF-8, no control bytes, no blanks at its ends. */
bool plmi_export_exact(const char *text);
/* The dive's mix that was only assumed at its start, as no gas is recorded; UINT32_MAX none. */
uint32_t plmi_export_assumed_mix(const struct plm_dive *dive);
/*
 * The dive's mixes as a log names them: those breathed by their first use, then the others. Air that was only assumed
 * is not among them, unless the diver came back to it. Lives as long as the export; *count 0 without memory.
 */
const uint32_t *plmi_export_mix_order(struct plm_export *export, const struct plm_dive *dive, size_t *count);
/* Cells that some sample has: the number of the last one, 0 none. */
int plmi_export_cells(const struct plm_dive *dive);
/* "diluent", "bailout", "deco"; "" where the use is not stated. */
const char *plmi_export_use(enum plm_mix_use use);

#endif
