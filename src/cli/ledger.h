/*
 * What the commands over the exposure ledger share: the open ledger, stored dives read again, figures computed from
 * them. Includes public headers of the library only.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_CLI_LEDGER_H
#define PLM_CLI_LEDGER_H

#include <plimsoll/debrief.h>
#include <plimsoll/ledger.h>
#include <plimsoll/completeness.h>

#include "cli/command.h"

/* A stored log, open as it was added, and how far its dives were taken. Dives of one log are read in one go where they
 * are asked for in order. */
struct plmi_cli_reader {
    char *opened;                                    /* everything that the opening depends on; NULL: nothing is open */
    char *start_clock, *zone, *columns, *date_order; /* as told, for as long as it is open         */
    void *bytes;
    struct plm_source *source;
    struct plm_card *card;
    struct plm_rules rules; /* those under which the record was added */
    struct plm_debrief *debrief;
    int index;                     /* of the dive taken last; 0 none */
    const struct plm_start *start; /* of the dive being replayed */
    struct plm_diag_sink sink;     /* to call->talk, while loud */
    bool tell, loud;               /* tell: loud from the replay on, as the reading was told of before */
};

/* A dive that is being added, at hand with the debrief that read it; no dive: none. */
struct plmi_cli_hand {
    struct plm_debrief *debrief;
    struct plm_dive *dive;
    const char *log_sha256;
    int log_index;
};

struct plmi_cli_ledger {
    struct plmi_cli_call *call;
    struct plm_ledger *file;
    struct plmi_cli_reader reader;
    enum plm_status opened; /* what opening came to */
    struct plmi_cli_hand hand;
    char *rules_text; /* rules that were read last, and what they came to */
    struct plm_rules rules;
    int64_t before_utc_ms; /* when the dive debriefed before went under water */
};

/* --ledger FILE, else $PLIMSOLL_LEDGER, else the one in the XDG data home, as a path in buffer or elsewhere; NULL:
 * there is no home for one. */
const char *plmi_cli_ledger_path(const struct plmi_cli_settings *settings, char *buffer, size_t size);
/* Opens --ledger FILE, else $PLIMSOLL_LEDGER, else the one in the XDG data home. Returns: false when reported. */
bool plmi_cli_ledger_open(struct plmi_cli_ledger *ledger, struct plmi_cli_call *call, enum plm_ledger_mode mode);
void plmi_cli_ledger_close(struct plmi_cli_ledger *ledger);

/* Tells of the ledger on standard error, as diagnostics are. printf for strings and integers. */
void plmi_cli_ledger_tell(struct plmi_cli_ledger *ledger, enum plm_level level, const char *file, const char *format,
                          ...)
#if defined(__GNUC__)
    __attribute__((format(printf, 4, 5)))
#endif
    ;
/* All dives of a diver who has any; who has none is reported with who has: INPUT. The caller frees *out. */
enum plm_status plmi_cli_ledger_entries(struct plmi_cli_ledger *ledger, const char *diver, struct plm_entries **out);
/* "dive 2 of quill.uddf, 2031-05-07T14:40:03+11:00" */
char *plmi_cli_ledger_name(const struct plm_exposure *exposure, char *buffer, size_t size);

/* A stored dive, read as when it was added. The caller frees *out. */
enum plm_status plmi_cli_reader_dive(struct plmi_cli_ledger *ledger, const struct plm_record *record,
                                     struct plm_dive **out);
/* The same, debriefed from a start state. */
enum plm_status plmi_cli_reader_debrief(struct plmi_cli_ledger *ledger, const struct plm_record *record,
                                        const struct plm_start *start, struct plm_debriefed **out);
/* Lets a debrief begin each dive with the start state that the reader was given: options->carried. */
void plmi_cli_reader_carries(struct plmi_cli_ledger *ledger, struct plm_debrief_options *options);
/* Rules as they are kept. */
enum plm_status plmi_cli_reader_rules(struct plmi_cli_ledger *ledger, const char *text, struct plm_rules *rules);
void plmi_cli_reader_close(struct plmi_cli_reader *reader);

/*
 * What a diver carries into going under water, from all dives of the ledger that had left it by then.
 */
enum plm_status plmi_cli_ledger_start(struct plmi_cli_ledger *ledger, const char *diver,
                                      const struct plm_dive_span *span, const struct plm_rules *rules,
                                      struct plm_start *start);
/* The figures of a debriefed dive; texts are the debriefed dive's and the record's. */
struct plm_figures plmi_cli_figures_of(const struct plm_debriefed *debriefed, const struct plm_record *record);
/* Whether figures were made from this very start. */
bool plmi_cli_figures_start_same(const struct plm_figures *figures, const struct plm_start *start);
/* The first figure that differs to the last bit, as its name; NULL: all are the same. */
const char *plmi_cli_figures_differ(const struct plm_figures *a, const struct plm_figures *b, double *value_a,
                                    double *value_b);

/*
 * Computes what an exposure's figures come to by its best record and the dives stored before it.
 *   start  [out] may be NULL
 * The caller frees *debriefed and *records, which own the figures' texts.
 */
enum plm_status plmi_cli_ledger_compute(struct plmi_cli_ledger *ledger, const struct plm_exposure *exposure,
                                        struct plm_figures *figures, struct plm_debriefed **debriefed,
                                        struct plm_records **records);

/*
 * Computes a diver's exposures anew from a moment on, until one is met that starts as it did before. Within a
 * transaction.
 *   changed      exposure whose record changed: computed in any case; 0 none
 *   recomputed   [out] how many others were
 */
enum plm_status plmi_cli_ledger_chain(struct plmi_cli_ledger *ledger, const char *diver, int64_t from_utc_ms,
                                      int64_t changed, long *recomputed);

/* What became of a dive that was to be added. */
enum plmi_cli_added { PLMI_CLI_ADDED_NEW, PLMI_CLI_ADDED_RECORD, PLMI_CLI_ADDED_BETTER_RECORD, PLMI_CLI_ADDED_KNOWN };
/* other: the dive that it is a record of */
struct plmi_cli_addition {
    enum plmi_cli_added what;
    char diver[128], name[256], other[256];
    long recomputed;
};
/*
 * Puts a dive in, in one transaction with all that follows from it. Takes dive, whatever comes of it.
 *   debrief what read it, opened by plmi_cli_reader_carries and the rules of the record
 *   record  what is known of it beside the dive: log, card, rules, what was told
 * Returns: OK; INPUT (reported): it cannot be kept, nothing was changed; IO, MEMORY.
 */
enum plm_status plmi_cli_ledger_add(struct plmi_cli_ledger *ledger, struct plm_debrief *debrief, struct plm_dive *dive,
                                    const struct plm_record *record, const struct plm_ledger_log *log,
                                    struct plmi_cli_addition *addition);

/* When a dive was, by its start, which is known with its zone. */
struct plm_dive_span plmi_cli_dive_span(const struct plm_dive *dive, const struct plm_rules *rules);
/* Diver, wall clock and zone of a dive, as far as they are told; what is missing is reported. Returns: false then. */
bool plmi_cli_dive_placed(struct plmi_cli_ledger *ledger, const struct plm_dive *dive, const struct plm_rules *rules,
                          enum plm_level level, const char **diver, struct plm_dive_span *span);

/* --ledger and --diver for commands that begin with what it knows; --ledger alone; --diver for what is added. */
extern const struct plmi_cli_options plmi_cli_options_carried;
extern const struct plmi_cli_options plmi_cli_options_ledger;
extern const struct plmi_cli_options plmi_cli_options_adding;

/* Opens the ledger for a debrief where it is asked for, and lets the debrief begin with what it knows. Returns: false
 * when reported. */
bool plmi_cli_carried_open(struct plmi_cli_ledger *ledger, struct plmi_cli_call *call,
                           struct plm_debrief_options *options);

/* The commands over the ledger, one file each. */
extern const struct plmi_cli_command plmi_cli_command_ledger_add;
extern const struct plmi_cli_command plmi_cli_command_ledger_list;
extern const struct plmi_cli_command plmi_cli_command_ledger_show;
extern const struct plmi_cli_command plmi_cli_command_ledger_due;
extern const struct plmi_cli_command plmi_cli_command_ledger_export;
extern const struct plmi_cli_command plmi_cli_command_ledger_remove;
extern const struct plmi_cli_command plmi_cli_command_ledger_check;

#endif
