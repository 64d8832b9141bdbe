/*
 * Fuzzes dive cards: reads one and lays it over a dive. Must not fail without a diagnostic.
 * SPDX-License-Identifier: MIT
 */
#include <stdint.h>
#include <string.h>

#include <plimsoll/log.h>

#include "fuzz/import_input.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static const char LOG[] = "time_s,depth_m,mode,o2_frac,he_frac,setpoint_bar,cell1_bar\n0,0,closed,0.18,0.45,0.7,0."
                          "7\n90,30,,,,,1.1\n120,40,,,,1.3,1.3\n"
                          "600,40,,,,,1.29\n900,12,open,0.5,0,,\n1500,6,,,,,\n1560,0,,,,,\n";

/* Lays a card over the dive, as every reader of logs does. */
static void lay(const struct plm_card *card, const struct plm_rules *rules, struct import_told *told)
{
    const struct plm_diag_sink sink = {import_count, told};
    struct plm_log_options options = plm_log_options_default(rules);
    struct plm_source *source = NULL;
    struct plm_log *log = NULL;
    struct plm_dive *dive = NULL;
    options.card = card;
    import_hold(plm_source_open_memory(&source, LOG, sizeof LOG - 1, "log", rules, NULL) == PLM_STATUS_OK);
    import_hold(plm_log_open_source(&log, source, &options, &sink) == PLM_STATUS_OK);
    if (plm_log_next(log, &dive) == PLM_STATUS_OK) {
        import_hold_dive(dive, rules);
    } else {
        import_hold(told->errors > 0);
    }
    plm_dive_free(dive);
    plm_log_free(log);
    plm_source_free(source);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct plm_rules rules = plm_rules_default();
    struct import_told told = {0};
    struct plm_diag_sink sink = {import_count, &told};
    struct plm_source *source = NULL;
    struct plm_card *card = NULL;
    if (plm_source_open_memory(&source, data, size, "card", &rules, &sink) == PLM_STATUS_OK) {
        if (plm_card_read(&card, source, &rules, &sink) == PLM_STATUS_OK) {
            lay(card, &rules, &told);
        } else {
            import_hold(told.errors > 0);
        }
    }
    plm_card_free(card);
    plm_source_free(source);
    return 0;
}
