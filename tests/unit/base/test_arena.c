/*
 * Memory given back at once, and arrays that grow.
 * Source: ISO C11 6.2.8 for alignment; the rest is our contract in base/arena.h.
 * SPDX-License-Identifier: MIT
 */
#include <check.h>
#include <stdalign.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "base/arena.h"

START_TEST(pieces_are_zeroed_aligned_and_apart)
{
    struct plmi_arena arena;
    plmi_arena_init(&arena);
    unsigned char *pieces[500];
    for (size_t i = 0; i < 500; i++) {
        pieces[i] = plmi_arena_get(&arena, i * 3);
        ck_assert_ptr_nonnull(pieces[i]);
        ck_assert_uint_eq((uintptr_t)pieces[i] % alignof(max_align_t), 0);
        for (size_t b = 0; b < i * 3; b++) {
            if (pieces[i][b] != 0) {
                ck_abort();
            }
        }
        memset(pieces[i], (int)(i % 251) + 1, i * 3);
    }
    for (size_t i = 0; i < 500; i++) {
        for (size_t b = 0; b < i * 3; b++) {
            if (pieces[i][b] != i % 251 + 1) {
                ck_abort_msg("piece %zu was written over", i);
            }
        }
    }
    ck_assert_uint_ge(arena.used_bytes, 3 * 499 * 500 / 2);
    plmi_arena_free(&arena);
    ck_assert_uint_eq(arena.used_bytes, 0);
}
END_TEST

START_TEST(large_pieces_and_texts)
{
    struct plmi_arena arena;
    plmi_arena_init(&arena);
    unsigned char *large = plmi_arena_get(&arena, 1000000);
    ck_assert_ptr_nonnull(large);
    memset(large, 1, 1000000);
    char *text = plmi_arena_text(&arena, "depth_m", 5);
    ck_assert_str_eq(text, "depth");
    ck_assert_str_eq(plmi_arena_text(&arena, NULL, 0), "");
    ck_assert_ptr_null(plmi_arena_get(&arena, SIZE_MAX));
    ck_assert_ptr_null(plmi_arena_text(&arena, "x", SIZE_MAX));
    plmi_arena_free(&arena);
}
END_TEST

START_TEST(arrays_grow_and_keep_what_they_hold)
{
    void *memory = NULL;
    size_t capacity = 0;
    for (size_t i = 0; i < 10000; i++) {
        ck_assert(plmi_array_grow(&memory, &capacity, i, sizeof(size_t)));
        ((size_t *)memory)[i] = i;
    }
    for (size_t i = 0; i < 10000; i++) {
        ck_assert_uint_eq(((size_t *)memory)[i], i);
    }
    free(memory);
}
END_TEST

START_TEST(an_array_that_cannot_grow_stays)
{
    int item = 7;
    void *memory = &item;
    size_t capacity = SIZE_MAX / 8;
    ck_assert(!plmi_array_grow(&memory, &capacity, capacity, 16));
    ck_assert(memory == &item && capacity == SIZE_MAX / 8);
}
END_TEST

int main(void)
{
    TCase *tests = tcase_create("arena");
    tcase_add_test(tests, pieces_are_zeroed_aligned_and_apart);
    tcase_add_test(tests, large_pieces_and_texts);
    tcase_add_test(tests, arrays_grow_and_keep_what_they_hold);
    tcase_add_test(tests, an_array_that_cannot_grow_stays);
    Suite *suite = suite_create("base");
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
