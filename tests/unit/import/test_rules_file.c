/*
 * Rules files: later wins, origins are told, anything bad leaves the rules as they were.
 * SPDX-License-Identifier: MIT
 */
#include <plimsoll/rules_file.h>
#include <string.h>

#include "support/suite.h"

/* What was reported. */
struct heard {
    int errors, warnings;
    char last[256];
    long line;
};

static void hear(void *context, const struct plm_diag *diag)
{
    struct heard *heard = context;
    heard->errors += diag->level == PLM_LEVEL_ERROR;
    heard->warnings += diag->level == PLM_LEVEL_WARNING;
    heard->line = diag->place.line;
    strncpy(heard->last, diag->text, sizeof heard->last - 1);
}

static enum plm_status read_bytes(struct plm_rules *rules, struct plm_rule_origins *origins, const char *bytes,
                                  size_t count, const char *name, struct heard *heard)
{
    *heard = (struct heard){.errors = 0};
    struct plm_diag_sink sink = {hear, heard};
    struct plm_source *source = NULL;
    enum plm_status status = plm_source_open_memory(&source, bytes, count, name, rules, &sink);
    if (status == PLM_STATUS_OK) {
        status = plm_rules_read(rules, origins, source, &sink);
    }
    plm_source_free(source);
    return status;
}

static enum plm_status read_text(struct plm_rules *rules, struct plm_rule_origins *origins, const char *text,
                                 const char *name, struct heard *heard)
{
    return read_bytes(rules, origins, text, strlen(text), name, heard);
}

START_TEST(later_files_win_and_origins_are_told)
{
    struct plm_rules rules = plm_rules_default();
    struct plm_rule_origins *origins = plm_rule_origins_new();
    struct heard heard;
    ck_assert_int_eq(
        read_text(&rules, origins, "\xEF\xBB\xBF# a\r\ngf_low_pct = 20\r\n[any]\r\n  model = A\r\n", "one.ini", &heard),
        PLM_STATUS_OK);
    ck_assert_int_eq(read_text(&rules, origins, "gf_low_pct=25 ; stricter", "two.ini", &heard), PLM_STATUS_OK);
    ck_assert_int_eq(heard.errors + heard.warnings, 0);
    ck_assert_double_eq(rules.gf_low_pct, 25);
    ck_assert_int_eq(rules.model, 0);
    ck_assert_str_eq(plm_rule_origin(origins, "gf_low_pct"), "two.ini:1");
    ck_assert_str_eq(plm_rule_origin(origins, "model"), "one.ini:4");
    ck_assert_str_eq(plm_rule_origin(origins, "gf_high_pct"), "default");
    ck_assert_int_eq(plm_rules_set_from(&rules, origins, "gf_low_pct", "30", "command line"), PLM_STATUS_OK);
    ck_assert_str_eq(plm_rule_origin(origins, "gf_low_pct"), "command line");
    ck_assert_int_eq(plm_rules_set_from(&rules, origins, "gf_low_pct", "x", "command line"), PLM_STATUS_ARGUMENT);
    plm_rule_origins_free(origins);
}
END_TEST

START_TEST(anything_bad_leaves_the_rules_alone)
{
    static const struct {
        const char *text, *says;
        long line;
    } bad[] = {{"gf_low_pct = 20\ngf_lo_pct = 20\n", "gf_low_pct", 2},
               {"gf_low_pct = 20\ngf_high_pct = 101\n", "1 to 100", 2},
               {"gf_low_pct = 2x\n", "2x", 1},
               {"model = D\n", "A|B|C", 1},
               {"gf_low_pct = 1e999\n", "1e999", 1},
               {"gf_low_pct\n", "neither", 1},
               {"[open\n", "neither", 1},
               {"gf_low_pct = nan\n", "nan", 1},
               {"gf_low_pct =\n", "cannot be ''", 1}};
    struct plm_rules rules = plm_rules_default();
    struct heard heard;
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        ck_assert_int_eq(read_text(&rules, NULL, bad[i].text, "bad.ini", &heard), PLM_STATUS_INPUT);
        ck_assert_int_eq(heard.errors, 1);
        ck_assert_int_eq(heard.line, bad[i].line);
        ck_assert_msg(strstr(heard.last, bad[i].says) != NULL, "%s", heard.last);
        ck_assert_double_eq(rules.gf_low_pct, 30);
    }
    ck_assert_int_eq(read_bytes(&rules, NULL, "gap_s = 1\0 0\n", 13, "bad.ini", &heard), PLM_STATUS_INPUT);
    ck_assert_double_eq(rules.gap_s, 60);
}
END_TEST

START_TEST(long_lines_long_files_and_doubles)
{
    struct plm_rules rules = plm_rules_default();
    struct heard heard;
    char line[400];
    memset(line, 'x', sizeof line - 1);
    line[sizeof line - 1] = '\0';
    ck_assert_int_eq(read_text(&rules, NULL, line, "long.ini", &heard), PLM_STATUS_INPUT);
    ck_assert_int_eq(read_text(&rules, NULL, "gap_s = 30\ngap_s = 40\n", "twice.ini", &heard), PLM_STATUS_OK);
    ck_assert_int_eq(heard.warnings, 1);
    ck_assert_double_eq(rules.gap_s, 40);
    char *large = malloc(1048578);
    memset(large, '\n', 1048578);
    ck_assert_int_eq(read_bytes(&rules, NULL, large, 1048578, "large.ini", &heard), PLM_STATUS_LIMIT);
    free(large);
}
END_TEST

START_TEST(values_read_back_as_they_were_set)
{
    struct plm_rules rules = plm_rules_default();
    char text[32];
    ck_assert_str_eq(plm_rules_get(&rules, "water_kg_m3", text, sizeof text), "1019.7162");
    ck_assert_str_eq(plm_rules_get(&rules, "oxygen", text, sizeof text), "auto");
    ck_assert_str_eq(plm_rules_get(&rules, "nothing", text, sizeof text), "");
    size_t count = 0;
    const struct plm_rule_info *table = plm_rules_table(&count);
    for (size_t i = 0; i < count; i++) {
        ck_assert_int_eq(plm_rules_set(&rules, table[i].key, plm_rules_get(&rules, table[i].key, text, sizeof text)),
                         PLM_STATUS_OK);
    }
    const struct plm_rules untouched = plm_rules_default();
    for (size_t i = 0; i < count; i++) {
        char want[32];
        ck_assert_str_eq(plm_rules_get(&rules, table[i].key, text, sizeof text),
                         plm_rules_get(&untouched, table[i].key, want, sizeof want));
    }
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {later_files_win_and_origins_are_told, anything_bad_leaves_the_rules_alone,
                                  long_lines_long_files_and_doubles, values_read_back_as_they_were_set};
    return SUITE_RUN("rules files", tests);
}
