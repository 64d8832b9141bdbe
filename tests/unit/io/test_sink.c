/*
 * File sinks: whole or not at all, permissions kept, links kept, gzip that zlib's own reader opens.
 * Sources: POSIX.1-2008 rename; RFC 1952 2.3 (header).
 * SPDX-License-Identifier: MIT
 */
#include <check.h>
#include <dirent.h>
#include <fcntl.h>
#include <plimsoll/sink.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>
#include <zlib.h>

#include "io/memory_sink.h"
#include "unit/diag_list.h"

static struct diag_list told;
static struct plm_diag_sink sink;
static char folder[64];

static void set_up(void)
{
    sink = diag_list_sink(&told);
    (void)snprintf(folder, sizeof folder, "/tmp/plimsoll-test-XXXXXX");
    ck_assert_ptr_nonnull(mkdtemp(folder));
    ck_assert_int_eq(chdir(folder), 0);
    (void)umask(022);
}

static void tear_down(void)
{
    static const char *const names[] = {"f", "f.gz", "g.gz", "link"};
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        (void)unlink(names[i]);
    }
    (void)chdir("/");
    (void)rmdir(folder);
}

static int count_files(void)
{
    DIR *directory = opendir(".");
    ck_assert_ptr_nonnull(directory);
    int count = -2; /* . and .. */
    while (readdir(directory) != NULL) {
        count++;
    }
    (void)closedir(directory);
    return count;
}

static size_t read_file(const char *path, char *buffer, size_t size)
{
    FILE *file = fopen(path, "rb");
    ck_assert_ptr_nonnull(file);
    size_t count = fread(buffer, 1, size, file);
    (void)fclose(file);
    return count;
}

static struct plm_file_sink *open_and_write(const char *path, const char *text)
{
    struct plm_file_sink *file = NULL;
    ck_assert_int_eq(plm_file_sink_open(&file, path, &sink), PLM_STATUS_OK);
    struct plm_sink out = plm_file_sink_get(file);
    ck_assert_int_eq(out.write(out.context, text, strlen(text)), PLM_STATUS_OK);
    return file;
}

static void check_file(const char *path, const char *want)
{
    char buffer[100];
    size_t count = read_file(path, buffer, sizeof buffer);
    ck_assert_uint_eq(count, strlen(want));
    ck_assert_int_eq(memcmp(buffer, want, count), 0);
}

START_TEST(a_file_appears_when_it_is_whole)
{
    struct plm_file_sink *file = open_and_write("f", "new");
    ck_assert_int_ne(access("f", F_OK), 0);
    ck_assert_int_eq(plm_file_sink_finish(file), PLM_STATUS_OK);
    check_file("f", "new");
    struct stat about;
    ck_assert_int_eq(stat("f", &about), 0);
    ck_assert_int_eq((int)(about.st_mode & 07777), 0644);
    ck_assert_int_eq(count_files(), 1);
}
END_TEST

START_TEST(what_is_dropped_leaves_all_as_it_was)
{
    ck_assert_int_eq(plm_file_sink_finish(open_and_write("f", "old")), PLM_STATUS_OK);
    struct plm_file_sink *file = open_and_write("f", "new");
    ck_assert_int_eq(count_files(), 2);
    plm_file_sink_free(file);
    plm_file_sink_free(NULL);
    check_file("f", "old");
    ck_assert_int_eq(count_files(), 1);
}
END_TEST

START_TEST(a_replaced_file_keeps_its_permissions_and_a_link_stays_one)
{
    ck_assert_int_eq(plm_file_sink_finish(open_and_write("f", "old")), PLM_STATUS_OK);
    ck_assert_int_eq(chmod("f", 0640), 0);
    ck_assert_int_eq(symlink("f", "link"), 0);
    ck_assert_int_eq(plm_file_sink_finish(open_and_write("link", "new")), PLM_STATUS_OK);
    check_file("f", "new");
    struct stat about;
    ck_assert_int_eq(stat("f", &about), 0);
    ck_assert_int_eq((int)(about.st_mode & 07777), 0640);
    ck_assert_int_eq(lstat("link", &about), 0);
    ck_assert(S_ISLNK(about.st_mode));
    ck_assert_int_eq(count_files(), 2);
}
END_TEST

START_TEST(a_device_is_written_to_and_not_replaced)
{
    ck_assert_int_eq(plm_file_sink_finish(open_and_write("/dev/null", "x")), PLM_STATUS_OK);
    struct stat about;
    ck_assert_int_eq(stat("/dev/null", &about), 0);
    ck_assert(S_ISCHR(about.st_mode));
}
END_TEST

START_TEST(failure_is_told)
{
    struct plm_file_sink *file = NULL;
    ck_assert_int_eq(plm_file_sink_open(&file, ".", &sink), PLM_STATUS_IO);
    ck_assert_ptr_null(file);
    ck_assert_str_eq(told.lines[0], ".: error: cannot be written: is a directory [write]");
    ck_assert_int_eq(plm_file_sink_open(&file, "none/f", &sink), PLM_STATUS_IO);
    ck_assert_str_eq(told.lines[1], "none/f: error: cannot be written: no such file or directory [write]");
    if (access("/dev/full", W_OK) == 0) {
        ck_assert_int_eq(plm_file_sink_finish(open_and_write("/dev/full", "x")), PLM_STATUS_IO);
        ck_assert_str_eq(told.lines[2], "/dev/full: error: cannot be written: no space left [write]");
        ck_assert_int_eq(told.count, 3);
    }
}
END_TEST

START_TEST(a_link_that_leads_nowhere_is_refused)
{
    struct plm_file_sink *file = NULL;
    struct stat about;
    ck_assert_int_eq(symlink("nowhere", "dangling"), 0);
    ck_assert_int_eq(symlink("loop", "loop"), 0);
    ck_assert_int_eq(plm_file_sink_open(&file, "dangling", &sink), PLM_STATUS_IO);
    ck_assert_str_eq(told.lines[0], "dangling: error: cannot be written: a symbolic link that leads nowhere [write]");
    ck_assert_int_eq(plm_file_sink_open(&file, "loop", &sink), PLM_STATUS_IO);
    ck_assert_str_eq(told.lines[1], "loop: error: cannot be written: too many symbolic links [write]");
    ck_assert_int_eq(lstat("dangling", &about), 0);
    ck_assert(S_ISLNK(about.st_mode));
    ck_assert_int_ne(lstat("nowhere", &about), 0);
}
END_TEST

START_TEST(the_part_is_named_while_there_is_one)
{
    struct stat about;
    struct plm_file_sink *file = open_and_write("part-of", "x");
    ck_assert_ptr_nonnull(plm_file_sink_part(file));
    ck_assert_int_eq(stat(plm_file_sink_part(file), &about), 0);
    ck_assert_int_ne(stat("part-of", &about), 0);
    plm_file_sink_free(file);
    file = open_and_write("/dev/null", "x");
    ck_assert_ptr_null(plm_file_sink_part(file));
    plm_file_sink_free(file);
}
END_TEST

/* 1 MB in odd pieces, read back by zlib. */
START_TEST(gzip_by_name)
{
    static const char line[] = "12.5,3.0,1.3\n";
    static const char *const names[] = {"f.gz", "g.gz"};
    for (size_t i = 0; i < 2; i++) {
        struct plm_file_sink *file = NULL;
        ck_assert_int_eq(plm_file_sink_open(&file, names[i], &sink), PLM_STATUS_OK);
        struct plm_sink out = plm_file_sink_get(file);
        for (int n = 0; n < 80000; n++) {
            if (out.write(out.context, line, sizeof line - 1) != PLM_STATUS_OK) {
                ck_abort();
            }
        }
        ck_assert_int_eq(plm_file_sink_finish(file), PLM_STATUS_OK);
        gzFile packed = gzopen(names[i], "rb");
        ck_assert_ptr_nonnull(packed);
        char buffer[sizeof line];
        for (int n = 0; n < 80000; n++) {
            if (gzread(packed, buffer, sizeof line - 1) != sizeof line - 1 ||
                memcmp(buffer, line, sizeof line - 1) != 0) {
                ck_abort_msg("line %d differs", n);
            }
        }
        ck_assert_int_eq(gzread(packed, buffer, 1), 0);
        ck_assert_int_eq(gzclose(packed), Z_OK);
    }
    static char first[200000];
    static char second[200000];
    size_t count = read_file("f.gz", first, sizeof first);
    ck_assert_uint_eq(read_file("g.gz", second, sizeof second), count);
    ck_assert_int_eq(memcmp(first, second, count), 0);
    ck_assert_int_eq(memcmp(first, "\x1f\x8b\x08\0\0\0\0\0", 8), 0); /* no name, no time */
}
END_TEST

START_TEST(large_and_small_writes_keep_their_order)
{
    static char large[200000];
    memset(large, 'x', sizeof large);
    struct plm_file_sink *file = open_and_write("f", "a");
    struct plm_sink out = plm_file_sink_get(file);
    ck_assert_int_eq(out.write(out.context, large, sizeof large), PLM_STATUS_OK);
    ck_assert_int_eq(out.write(out.context, "b", 1), PLM_STATUS_OK);
    ck_assert_int_eq(plm_file_sink_finish(file), PLM_STATUS_OK);
    static char back[200010];
    ck_assert_uint_eq(read_file("f", back, sizeof back), 200002);
    ck_assert(back[0] == 'a' && back[1] == 'x' && back[200000] == 'x' && back[200001] == 'b');
}
END_TEST

START_TEST(standard_output_stays_open)
{
    int fd = open("f", O_WRONLY | O_CREAT, 0600);
    int kept = dup(1);
    ck_assert_int_eq(dup2(fd, 1), 1);
    enum plm_status status = plm_file_sink_finish(open_and_write("-", "out"));
    ck_assert_int_eq(write(1, "!", 1), 1);
    ck_assert_int_eq(dup2(kept, 1), 1);
    (void)close(fd);
    (void)close(kept);
    ck_assert_int_eq(status, PLM_STATUS_OK);
    check_file("f", "out!");
}
END_TEST

START_TEST(memory)
{
    struct plmi_text text;
    plmi_text_init(&text);
    struct plm_sink out = plmi_memory_sink(&text);
    ck_assert_int_eq(out.write(out.context, "a", 1), PLM_STATUS_OK);
    ck_assert_int_eq(out.write(out.context, "bc", 2), PLM_STATUS_OK);
    ck_assert_str_eq(text.bytes, "abc");
    plmi_text_free(&text);
}
END_TEST

int main(void)
{
    TCase *tests = tcase_create("sink");
    tcase_add_checked_fixture(tests, set_up, tear_down);
    tcase_add_test(tests, a_file_appears_when_it_is_whole);
    tcase_add_test(tests, what_is_dropped_leaves_all_as_it_was);
    tcase_add_test(tests, a_replaced_file_keeps_its_permissions_and_a_link_stays_one);
    tcase_add_test(tests, a_device_is_written_to_and_not_replaced);
    tcase_add_test(tests, failure_is_told);
    tcase_add_test(tests, a_link_that_leads_nowhere_is_refused);
    tcase_add_test(tests, the_part_is_named_while_there_is_one);
    tcase_add_test(tests, gzip_by_name);
    tcase_add_test(tests, large_and_small_writes_keep_their_order);
    tcase_add_test(tests, standard_output_stays_open);
    tcase_add_test(tests, memory);
    Suite *suite = suite_create("io");
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
