/*
 * Parts of paths for divers. SHA-256 of "a/b" by sha256sum:
 * c14cddc033f64b9dea80ea675cf280a015e672516090a5626781153dc68fea11.
 * SPDX-License-Identifier: MIT
 */
#include <check.h>
#include <stdlib.h>
#include <string.h>

#include "cli/diver_file.h"

static const struct plm_diag_sink NONE = {NULL, NULL};

static const char *part_of(const char *name)
{
    static char part[PLMI_CLI_DIVER_FILE_BYTES];
    ck_assert(plmi_cli_diver_file(name, part, &NONE));
    return part;
}

START_TEST(plain_names_stay)
{
    ck_assert_str_eq(part_of("Tern"), "Tern");
    ck_assert_str_eq(part_of("Quill Reef-2"), "Quill_Reef-2");
    ck_assert_str_eq(part_of("T\xc3\xa9rn"), "T\xc3\xa9rn");
}
END_TEST

START_TEST(others_have_their_hash)
{
    static const char *const names[] = {"..", ".",  "con",    "COM1",         "LPT9", "a_b",
                                        "-x", "a.", "x\x1by", "\xe2\x80\xae", "~",    ""};
    char first[PLMI_CLI_DIVER_FILE_BYTES];
    ck_assert_str_eq(part_of("a/b"), "a_b+c14cddc033f64b9dea80");
    ck_assert_str_eq(part_of("A/B"), "A_B+c14cddc033f64b9dea80");
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        const char *part = part_of(names[i]);
        ck_assert_msg(strchr(part, '+') != NULL && strpbrk(part, "./\\:\x1b") == NULL && part[0] != '-', "%s", part);
    }
    ck_assert_ptr_null(strchr(part_of("com10"), '+'));
    /* Long names are cut between letters and still differ. */
    char name[200];
    memset(name, 'x', sizeof name);
    memcpy(name + 63, "\xc3\xa9", 2);
    name[199] = '\0';
    memcpy(first, part_of(name), sizeof first);
    ck_assert_uint_eq(strlen(first), 63 + 21);
    name[198] = 'y';
    ck_assert_str_ne(first, part_of(name));
}
END_TEST

int main(void)
{
    TCase *tests = tcase_create("diver_file");
    tcase_add_test(tests, plain_names_stay);
    tcase_add_test(tests, others_have_their_hash);
    Suite *suite = suite_create("cli");
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
