/*
 * The encoding that an XML declaration names. Source: XML 1.0 (W3C, fifth edition), production 81: a name is letters,
 * digits, ".", "_" and "-"; ":" is let through, as registered names of encodings hold it (IANA character sets).
 * SPDX-License-Identifier: MIT
 */
#include <stdio.h>
#include <string.h>

#include "support/suite.h"
#include "syntax/evidence.h"

static bool declared(const char *encoding, char name[PLMI_ENCODING_NAME_BYTES])
{
    char text[200];
    int length = snprintf(text, sizeof text, "<?xml version=\"1.0\" encoding=\"%s\"?>", encoding);
    ck_assert_int_gt(length, 0);
    return plmi_encoding_declared((const unsigned char *)text, (size_t)length, name);
}

/* The first and the last of each range of letters and digits. */
START_TEST(names_hold_letters_and_digits)
{
    static const char *const names[] = {"a", "z", "A", "Z", "UTF-8", "x-0", "x-9", "a_b", "a.b", "a:b"};
    char name[PLMI_ENCODING_NAME_BYTES];
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        ck_assert_msg(declared(names[i], name), "%s", names[i]);
        ck_assert_str_eq(name, names[i]);
    }
}
END_TEST

/* The neighbours of those ranges in ASCII, and a blank. */
START_TEST(names_hold_nothing_else)
{
    static const char *const names[] = {"", "x`", "x{", "x@", "x[", "x/", "x;", "x y"};
    char name[PLMI_ENCODING_NAME_BYTES];
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        ck_assert_msg(!declared(names[i], name), "%s", names[i]);
    }
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {names_hold_letters_and_digits, names_hold_nothing_else};
    return SUITE_RUN("evidence", tests);
}
