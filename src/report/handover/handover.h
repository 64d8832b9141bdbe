/*
 * One page for the diving doctor or the emergency service: facts of the last dive, the dives of the two days before it,
 * room for symptoms and care. For the files of this room alone. Must not hold a diagnosis or a probability.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REPORT_HANDOVER_HANDOVER_H
#define PLM_REPORT_HANDOVER_HANDOVER_H

#include <plimsoll/completeness.h>

#include "base/arena.h"
#include "report/view/view.h"
#include "report/view/writer.h"

/* Dives that ended this long before the last one began are shown [h]. */
#define PLMI_HANDOVER_HOURS 48
/* Rows of dives and of mixes that a page has room for. */
#define PLMI_HANDOVER_DIVES_MAX 6
#define PLMI_HANDOVER_MIXES_MAX 6

/* What is shown of a dive that is not the last one. Texts live in the arena. */
struct plmi_handover_dive {
    struct plm_stamp start;
    double surfaced_s, max_depth_m, surfacing_gradient_pct, cns_pct; /* NaN unknown */
    bool cns_at_least;
    struct plm_completeness worth; /* of the record */
};

struct plmi_handover {
    struct plmi_arena arena;
    struct plmi_handover_dive *dives;
    size_t count, capacity;
    size_t last;           /* index of the dive that the page is about */
    const char *diver;     /* of all dives that name one; NULL: none does */
    size_t basis_bytes;    /* of what is told of what its figures stand on */
    size_t mix_count;      /* of mixes shown of it */
    bool elsewhere;        /* dives of another source than the logs were asked for */
    bool carried;          /* it began with what dives before it left */
    struct plmi_text page; /* what is shown of the last dive */
};

/* How a page is written. */
struct plmi_handover_form {
    void (*dive)(struct plmi_text *out, const struct plm_report_options *options, const struct plmi_view *view);
    void (*rest)(struct plmi_text *out, const struct plm_report_options *options, const struct plmi_handover *handover);
};
extern const struct plmi_handover_form plmi_handover_text;
extern const struct plmi_handover_form plmi_handover_html;

/* Row of an earlier dive: hours_before: from its end to the beginning of the last one. */
struct plmi_handover_row {
    const struct plmi_handover_dive *dive;
    double hours_before;
};
/* Dives that ended within the hours before the last one began, latest first; no dive twice that two recorders tell.
 * *more: how many the page has no room for. Returns: how many rows there are. */
size_t plmi_handover_earlier(const struct plmi_handover *handover,
                             struct plmi_handover_row rows[PLMI_HANDOVER_DIVES_MAX], size_t *more);
/* Other records of the last dive itself, and dives that tell no time. */
size_t plmi_handover_same_dive(const struct plmi_handover *handover);
size_t plmi_handover_untimed(const struct plmi_handover *handover);

/* Whether the page is to be about b and no longer about a: a later dive, or a better record of the same. */
bool plmi_handover_takes_over(const struct plmi_handover_dive *a, const struct plmi_handover_dive *b);

/* Where no dive is shown. */
const char *plmi_handover_none(const struct plmi_handover *handover);
/* The diver's name: as the log says, else as the caller does. */
const char *plmi_handover_diver(const struct plm_report_options *options, const struct plmi_view *view);

/* Facts in words, for every form. Each adds one sentence or nothing. */
void plmi_handover_when(struct plmi_text *out, const struct plmi_view *view);
void plmi_handover_decompression(struct plmi_text *out, const struct plmi_view *view);
void plmi_handover_ceiling(struct plmi_text *out, const struct plmi_view *view);
void plmi_handover_ascent(struct plmi_text *out, const struct plmi_view *view);
void plmi_handover_oxygen(struct plmi_text *out, const struct plmi_view *view);
void plmi_handover_tissues(struct plmi_text *out, const struct plmi_view *view);
void plmi_handover_gas(struct plmi_text *out, const struct plmi_view *view);
void plmi_handover_log(struct plmi_text *out, const struct plmi_view *view);
/* What the figures stand on: gradient factors and guesses. */
void plmi_handover_basis(struct plmi_text *out, const struct plmi_view *view);

/* "2031-05-06 09:30": the beginning of a dive, to the minute. */
void plmi_handover_began(struct plmi_text *out, const struct plm_stamp *start);

/* First aid, a sentence each, with its source at the end. */
extern const char *const plmi_handover_aid[];
extern const size_t plmi_handover_aid_count;
/* Where dives are shown that the last one did not carry from. */
extern const char plmi_handover_not_carried[];
/* What is to be filled in by hand, on so many lines at least, on so many more where there is room. */
struct plmi_handover_blank {
    const char *label;
    int lines, more;
};
extern const struct plmi_handover_blank plmi_handover_blanks[];
extern const size_t plmi_handover_blank_count;

#endif
