/*
 * The nearest known word: Levenshtein's distance, the first of those alike, words of any length.
 * Source of the distances: Levenshtein 1966; the usual worked examples.
 * SPDX-License-Identifier: MIT
 */
#include <plimsoll/nearest.h>
#include <string.h>

#include "support/suite.h"

static size_t distance(const char *word, const char *known)
{
    struct plm_nearest nearest = plm_nearest_begin(word);
    plm_nearest_offer(&nearest, known);
    ck_assert_ptr_eq(nearest.known, known);
    return nearest.distance;
}

START_TEST(distances)
{
    static char word[200];
    memset(word, 'x', sizeof word - 1);
    ck_assert_uint_eq(distance("kitten", "sitting"), 3);
    ck_assert_uint_eq(distance("saturday", "sunday"), 3);
    ck_assert_uint_eq(distance("debreif", "debrief"), 2);
    ck_assert_uint_eq(distance("gff", "gf"), 1);
    ck_assert_uint_eq(distance("", "abc"), 3);
    ck_assert_uint_eq(distance("abc", ""), 3);
    ck_assert_uint_eq(distance("same", "same"), 0);
    ck_assert_uint_eq(distance("", ""), 0);
    ck_assert_uint_eq(distance(word, "x"), 199);
    ck_assert_uint_eq(distance("x", word), 199);
}
END_TEST

START_TEST(the_nearest_is_kept_and_the_first_of_those_alike)
{
    static const char *const known[] = {"trace", "ledger", "rules", "rules", "audit"};
    struct plm_nearest nearest = plm_nearest_begin("ruels");
    ck_assert_ptr_null(nearest.known);
    for (size_t i = 0; i < sizeof known / sizeof known[0]; i++) {
        plm_nearest_offer(&nearest, known[i]);
    }
    ck_assert_ptr_eq(nearest.known, known[2]);
    ck_assert_uint_eq(nearest.distance, 2);
    ck_assert_str_eq(nearest.word, "ruels");
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {distances, the_nearest_is_kept_and_the_first_of_those_alike};
    return SUITE_RUN("nearest", tests);
}
