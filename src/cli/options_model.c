/*
 * Options on the model and on what surrounds the dive, shared by commands that replay. Must not compute.
 * SPDX-License-Identifier: MIT
 */
#include <string.h>

#include <plimsoll/gas.h>
#include <plimsoll/number.h>

#include "cli/command.h"

static const char *set_gf(struct plmi_cli_settings *settings, const char *value)
{
    static const char expected[] =
        "two gradient factors in percent, 1 to 100, the first not above the second, as 30/70";
    const char *slash = strchr(value, '/');
    char *low = settings->rules_given.gf_low;
    double low_pct, high_pct;
    if (slash == NULL || (size_t)(slash - value) >= sizeof settings->rules_given.gf_low) {
        return expected;
    }
    memcpy(low, value, (size_t)(slash - value));
    low[slash - value] = '\0';
    if (!plm_number_parse(low, strlen(low), &low_pct) || !plm_number_parse(slash + 1, strlen(slash + 1), &high_pct) ||
        low_pct > high_pct || !plmi_cli_settings_rule(settings, PLMI_CLI_RULE_gf_low_pct, low) ||
        !plmi_cli_settings_rule(settings, PLMI_CLI_RULE_gf_high_pct, slash + 1)) {
        return expected;
    }
    return NULL;
}

static const char *set_model(struct plmi_cli_settings *settings, const char *value)
{
    return plmi_cli_settings_rule(settings, PLMI_CLI_RULE_model, value) ? NULL : "one of A, B and C";
}

static const char *set_oxygen(struct plmi_cli_settings *settings, const char *value)
{
    return plmi_cli_settings_rule(settings, PLMI_CLI_RULE_oxygen, value) ? NULL : "one of auto, measured and setpoint";
}

static const char *set_water(struct plmi_cli_settings *settings, const char *value)
{
    static const struct {
        const char *word;
        double kg_m3;
    } waters[] = {{"salt", 1025}, {"fresh", 1000}, {"en13319", 1019.7162}};
    for (size_t i = 0; i < sizeof waters / sizeof waters[0]; i++) {
        if (strcmp(value, waters[i].word) == 0) {
            settings->water_kg_m3 = waters[i].kg_m3;
            return NULL;
        }
    }
    double kg_m3;
    if (!plm_number_parse(value, strlen(value), &kg_m3) || kg_m3 < PLM_WATER_LEAST_KG_M3 ||
        kg_m3 > PLM_WATER_MOST_KG_M3) {
        return "salt, fresh, en13319, or a density of 900 to 1100 kg/m3";
    }
    settings->water_kg_m3 = kg_m3;
    return NULL;
}

static const char *set_surface(struct plmi_cli_settings *settings, const char *value)
{
    double bar;
    if (!plm_number_parse(value, strlen(value), &bar) || bar < PLM_SURFACE_LEAST_BAR || bar > PLM_SURFACE_MOST_BAR) {
        return "a pressure of 0.4 to 1.2 bar";
    }
    settings->surface_bar = bar;
    return NULL;
}

static const char *set_altitude(struct plmi_cli_settings *settings, const char *value)
{
    double m;
    if (!plm_number_parse(value, strlen(value), &m) || m < PLM_ALTITUDE_LEAST_M || m > PLM_ALTITUDE_MOST_M) {
        return "an altitude of -500 to 9000 m";
    }
    settings->altitude_m = m;
    return NULL;
}

static const char *set_rules(struct plmi_cli_settings *settings, const char *value)
{
    struct plmi_cli_rules_given *given = &settings->rules_given;
    if (given->file_count == PLMI_CLI_RULES_FILES_MAX) {
        return "one rules file too many; 16 can be given";
    }
    given->files[given->file_count++] = value;
    return NULL;
}

static const struct plmi_cli_option rows[] = {
    {"gf", 0, "LO/HI",
     "gradient factors in percent: LO at the deepest ceiling met, HI at the surface; else as the dive "
     "card or the log states them, else 30/70",
     set_gf},
    {"model", 0, "A|B|C", "variant of ZH-L16; C unless told", set_model},
    {"water", 0, "salt|fresh|en13319|KG_M3",
     "density by which the recorder shows depth: 1025, 1000 or 1019.7 kg/m3, or a number; as the log says, else "
     "en13319",
     set_water},
    {"surface", 0, "BAR", "pressure at the surface where the log does not tell it", set_surface},
    {"altitude", 0, "M",
     "altitude, for a surface pressure by the standard atmosphere where neither the log nor --surface tells it",
     set_altitude},
    {"oxygen", 0, "auto|measured|setpoint",
     "oxygen pressure of a loop: auto takes cells, then the logged value, then the set point", set_oxygen},
    {"rules", 0, "FILE", "rules to go by, as plimsoll-rules(5) says; may be given several times, a later file wins",
     set_rules},
};

const struct plmi_cli_options plmi_cli_options_model = {"The model", rows, sizeof rows / sizeof rows[0]};
