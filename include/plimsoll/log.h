/*
 * A log, open: its bytes, what is stated beside it, and its dives with that laid over them. Every reader of logs goes
 * this way. Dive by dive; must hold no more than one.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_LOG_H
#define PLM_LOG_H

#include <stdbool.h>

#include <plimsoll/card.h>
#include <plimsoll/import.h>
#include <plimsoll/verdict.h>

#ifdef __cplusplus
extern "C" {
#endif

struct plm_log; /* opaque: a log being read */

/* Made by plm_log_options_default. Pointers are borrowed while the log lives. */
struct plm_log_options {
    struct plm_import_options import; /* import.rules are the rules of all                                          */
    const struct plm_rules_stated
        *stated;                 /* of these rules, those that stand before what card and log say; NULL none  */
    const char *card_path;       /* this card in place of the one beside the log; NULL: look there             */
    const struct plm_card *card; /* read already, in place of both; NULL none                                  */
    const char *plan_path;       /* this plan in place of the one that the card names; NULL: the card's        */
    bool alone;                  /* look for nothing beside the log: what is named above alone                 */
    bool without_plan;           /* read no plan, whoever names it                                             */
    const char *start_clock;     /* ISO 8601 start of the first dive where neither log nor card has one; NULL  */
    const char *zone;            /* "+11:00" or "Z" for starts without one, after the card; NULL               */
    bool digest;                 /* find the SHA-256 of its bytes, which reads them once more                  */
    bool keep; /* keep the bytes of the log and the text of its card, for plm_log_bytes and plm_log_card_text */
};
/* Card and plan are looked for beside the log; nothing else is reported, no digest is found, nothing is kept. */
PLM_API struct plm_log_options plm_log_options_default(const struct plm_rules *rules);

/*
 * Opens a log by its path, with the card and the plan that go with it; plimsoll-card(5) says where they lie. "-" is
 * standard input, beside which nothing lies. A card found beside a log is reported as a note. Card and plan are regular
 * files; those that no option names have to lie in the folder of the log or of the card, or below it, once all links
 * are followed.
 *
 *   sink   must outlive the log, as what options point to
 *
 * Returns: OK with *out (the caller frees), in all else NULL; IO, INPUT, LIMIT, MEMORY (reported): the log, the card or
 * the plan cannot be opened, is no log, has a line that cannot be used, or holds no dive; ARGUMENT (reported):
 * start_clock or zone cannot be read.
 */
PLM_API enum plm_status plm_log_open(struct plm_log **out, const char *path, const struct plm_log_options *options,
                                     const struct plm_diag_sink *sink);
/*
 * The same of a source that stands at its first byte; it stays the caller's and must outlive the log. Nothing lies
 * beside it: card and plan are those of the options.
 */
PLM_API enum plm_status plm_log_open_source(struct plm_log **out, struct plm_source *source,
                                            const struct plm_log_options *options, const struct plm_diag_sink *sink);
/*
 * The next dive, with the card, the start and the zone laid over it. Its index is its place in the log. What neither
 * the log nor the card says of gas and mode is reported, and a convention stands in for it: air; a closed loop where
 * set points or cells are recorded, else open circuit. Returns: OK with *out (the caller frees), END, or an error that
 * is reported, after which the log is over.
 */
PLM_API enum plm_status plm_log_next(struct plm_log *log, struct plm_dive **out);
/* Who states the gradient factors by which a dive is judged. */
enum plm_factors_from {
    PLM_FACTORS_ASSUMED, /* nobody: the default stands in */
    PLM_FACTORS_LOG,
    PLM_FACTORS_CARD,
    PLM_FACTORS_OPTION /* whoever made the rules: the command line, a file of rules, the caller */
};
/* "assumed", "log", "card", "option": a stable word; never NULL. */
PLM_API const char *plm_factors_from_text(enum plm_factors_from from);
/*
 * The rules by which a dive is judged: lays over rules what the card has in its section [rules], then the gradient
 * factors that the card or else the log states of the dive; what options.stated names stands.
 *   log    NULL: the dive is of none, and nothing stands before its gradient factors
 *   rules  [in,out] the caller's, as in options.import
 * Returns: who states the gradient factors.
 */
PLM_API enum plm_factors_from plm_log_rules_lay(const struct plm_log *log, const struct plm_dive *dive,
                                                struct plm_rules *rules);
/* Reports that a dive that was asked for is not there: it was skipped as it cannot be read, or the log, read to its
 * end, holds fewer. */
PLM_API void plm_log_missing(struct plm_log *log, int dive_index);
/* Whether some of the log or of its plan was not used: an error, or a warning of such a kind, was reported about it. */
PLM_API bool plm_log_partial(const struct plm_log *log);

/* What follows is owned by the log and lives as long as it does. */

/* As diagnostics have it. */
PLM_API const char *plm_log_name(const struct plm_log *log);
/* What was understood of the log, without its card. Never NULL. */
PLM_API const struct plm_verdict *plm_log_verdict(const struct plm_log *log);
/* 64 hex digits over the bytes as stored; "" unless options.digest. */
PLM_API const char *plm_log_sha256(const struct plm_log *log);
/* The bytes of the log as stored; NULL unless options.keep, and of a source of the caller's. */
PLM_API const void *plm_log_bytes(const struct plm_log *log, size_t *count);
/* The card that is laid over the dives; NULL none. */
PLM_API const struct plm_card *plm_log_card(const struct plm_log *log);
/* The path that it was read from; NULL none was read. */
PLM_API const char *plm_log_card_path(const struct plm_log *log);
/* Its text as stored, up to a NUL; NULL none was read, or unless options.keep. */
PLM_API const char *plm_log_card_text(const struct plm_log *log);
/* The plan that goes with the log; NULL none, whatever the dives themselves hold. */
PLM_API const struct plm_dive *plm_log_plan(const struct plm_log *log);
/* The path that it was read from; NULL none was read. */
PLM_API const char *plm_log_plan_path(const struct plm_log *log);
/* NULL is allowed. Dives that were given stay the caller's. */
PLM_API void plm_log_free(struct plm_log *log);

/* The paths of what plm_log_open would read beside a log; NULL none. Freed by plm_log_beside_free. */
struct plm_log_beside {
    char *card_path, *plan_path;
};
/*
 * Finds them without opening the log; a card is looked into for the plan that it names. Reports nothing.
 * Returns: OK, MEMORY; *out can be freed either way.
 */
PLM_API enum plm_status plm_log_beside_find(struct plm_log_beside *out, const char *path,
                                            const struct plm_log_options *options);
/* Frees what it holds, which may be nothing. */
PLM_API void plm_log_beside_free(struct plm_log_beside *beside);

#ifdef __cplusplus
}
#endif

#endif
