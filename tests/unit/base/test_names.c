/*
 * Names in one form.
 * Sources: UAX #15, "Unicode Normalization Forms", figures 3 to 6 and table 1 (singletons, canonical composites,
 * Hangul, multiple marks; U+1E9B U+0323 with its forms); NormalizationTest.txt for the Hangul row; The Unicode
 * Standard 15.0, CaseFolding.txt (full folding of U+00DF, U+03C2, U+0130 aside) and PropList.txt (White_Space).
 * SPDX-License-Identifier: MIT
 */
#include <check.h>
#include <stdlib.h>
#include <string.h>

#include <plimsoll/names.h>

static void check_form(char *form, const char *want)
{
    ck_assert_ptr_nonnull(form);
    ck_assert_str_eq(form, want);
    free(form);
}

START_TEST(normal_form_c)
{
    static const struct {
        const char *name, *want;
    } rows[] = {
        {"\xe2\x84\xab", "\xc3\x85"},                             /* figure 3: U+212B -> U+00C5             */
        {"\xe2\x84\xa6", "\xce\xa9"},                             /* figure 3: U+2126 -> U+03A9             */
        {"A\xcc\x8a", "\xc3\x85"},                                /* figure 4: U+0041 U+030A -> U+00C5      */
        {"o\xcc\x82", "\xc3\xb4"},                                /* figure 4: U+006F U+0302 -> U+00F4      */
        {"s\xcc\xa3\xcc\x87", "\xe1\xb9\xa9"},                    /* figure 5: U+0073 U+0323 U+0307 -> U+1E69 */
        {"\xe1\xb8\x8b\xcc\xa3", "\xe1\xb8\x8d\xcc\x87"},         /* figure 5: U+1E0B U+0323 -> U+1E0D U+0307 */
        {"q\xcc\x87\xcc\xa3", "q\xcc\xa3\xcc\x87"},               /* figure 5: marks in their order         */
        {"\xef\xac\x81", "\xef\xac\x81"},                         /* figure 6: U+FB01 stays                 */
        {"2\xe2\x81\xb5", "2\xe2\x81\xb5"},                       /* figure 6: U+2075 stays                 */
        {"\xe1\xba\x9b\xcc\xa3", "\xe1\xba\x9b\xcc\xa3"},         /* figure 6: U+1E9B U+0323 stays          */
        {"\xe1\x84\x80\xe1\x85\xa1\xe1\x86\xa8", "\xea\xb0\x81"}, /* Hangul: U+1100 U+1161 U+11A8 -> U+AC01 */
        {"\xe1\x84\x92\xe1\x85\xa1\xe1\x86\xab", "\xed\x95\x9c"}, /* Hangul: U+1112 U+1161 U+11AB -> U+D55C */
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        check_form(plm_name_normal(rows[i].name), rows[i].want);
        check_form(plm_name_normal(rows[i].want), rows[i].want);
        ck_assert(plm_name_same(rows[i].name, rows[i].want));
    }
}
END_TEST

START_TEST(white_space_is_folded)
{
    check_form(plm_name_normal(NULL), "");
    check_form(plm_name_normal(""), "");
    check_form(plm_name_normal(" \t\r\n\xc2\xa0\xe3\x80\x80"), "");
    check_form(plm_name_normal("  Quill \t\xe2\x80\x83 Reef\xe2\x80\xa8"), "Quill Reef");
    check_form(plm_name_normal("\xc2\x85"
                               "a\xe1\x9a\x80"
                               "b\xe2\x81\x9f"),
               "a b");
    check_form(plm_name_normal("a\xff"
                               "b\xc3"),
               "a\xef\xbf\xbd"
               "b\xef\xbf\xbd");
    /* What steers is no white space, and stays as it is: who shows it escapes it. */
    check_form(plm_name_normal("a\x1b\xe2\x80\xae"), "a\x1b\xe2\x80\xae");
}
END_TEST

START_TEST(one_person)
{
    static const struct {
        const char *a, *b;
        bool same, alike;
    } rows[] = {
        {"Tern", " tERN\t", true, false},
        {"Quill Reef", "Quill  \n REEF", true, false},
        {"Tern", "Ternx", false, false},
        {"Tern", "Ter n", false, false},
        {"", " ", true, false},
        {"", "a", false, false},
        {"a b", "a c", false, false},
        {"a b ", "a", false, false},
        {"T\xc3\xa9rn", "TE\xcc\x81RN", true, false},
        {"T\xc3\xa9rn", "Tern", false, true},
        {"\xc3\x85se", "ase", false, true},
        {"Stra\xc3\x9f"
         "e",
         "STRASSE", true, false},
        {"\xce\xa3\xce\xaf\xcf\x82", "\xcf\x83\xce\x8a\xce\xa3", true, false},
        {"Te\xe2\x80\x8brn", "Tern", true, false},
        {"\xe2\x80\x8eTern", "Tern", true, false},
        {"Te\xc2\xadrn", "Tern", true, false},
        {"T\xc3\xa9rn", "T\xc3\xa8rn", false, true},
        {"\xd0\xa2"
         "ern",
         "Tern", false, false},
        {NULL, NULL, false, false},
        {"a", NULL, false, false},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        ck_assert_msg(plm_name_same(rows[i].a, rows[i].b) == rows[i].same &&
                          plm_name_same(rows[i].b, rows[i].a) == rows[i].same,
                      "row %zu", i);
        ck_assert_msg(plm_name_alike(rows[i].a, rows[i].b) == rows[i].alike &&
                          plm_name_alike(rows[i].b, rows[i].a) == rows[i].alike,
                      "row %zu", i);
    }
}
END_TEST

/* The way without memory against the keys, over every pair of short names of few letters. */
START_TEST(ascii_is_no_other_way)
{
    static const char letters[] = {'\0', 'a', 'A', 'b', ' ', '\t'};
    char names[216][4];
    char *keys[216];
    for (int i = 0; i < 216; i++) {
        char three[4] = {letters[i / 36], letters[i / 6 % 6], letters[i % 6], '\0'};
        memcpy(names[i], three, sizeof three);
        keys[i] = plm_name_key(names[i]);
        ck_assert_ptr_nonnull(keys[i]);
    }
    for (int i = 0; i < 216; i++) {
        for (int k = 0; k < 216; k++) {
            ck_assert_msg(plm_name_same(names[i], names[k]) == (strcmp(keys[i], keys[k]) == 0), "'%s' '%s'", names[i],
                          names[k]);
        }
    }
    for (int i = 0; i < 216; i++) {
        free(keys[i]);
    }
}
END_TEST

int main(void)
{
    TCase *tests = tcase_create("names");
    tcase_add_test(tests, normal_form_c);
    tcase_add_test(tests, white_space_is_folded);
    tcase_add_test(tests, one_person);
    tcase_add_test(tests, ascii_is_no_other_way);
    Suite *suite = suite_create("base");
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
