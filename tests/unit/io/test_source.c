/*
 * Byte sources: files, memory, pipes, gzip (RFC 1952; made here by zlib), damage, bounds.
 * Source of the digests: FIPS 180-2, appendix B.1 and B.2, and the empty message.
 * SPDX-License-Identifier: MIT
 */
#include <check.h>
#include <fcntl.h>
#include <plimsoll/source.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/socket.h>
#include <sys/stat.h>
#include <sys/un.h>
#include <sys/wait.h>
#include <unistd.h>
#include <zlib.h>

#include "base/text.h"
#include "unit/diag_list.h"

static struct diag_list told;
static struct plm_diag_sink sink;
static struct plm_rules rules;
static char folder[64];

static void set_up(void)
{
    sink = diag_list_sink(&told);
    rules = plm_rules_default();
    (void)snprintf(folder, sizeof folder, "/tmp/plimsoll-test-XXXXXX");
    ck_assert_ptr_nonnull(mkdtemp(folder));
    ck_assert_int_eq(chdir(folder), 0);
}

static void tear_down(void)
{
    static const char *const names[] = {"f", "fifo", "socket", "link"};
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        (void)unlink(names[i]);
    }
    (void)chdir("/");
    (void)rmdir(folder);
}

static void write_file(const char *path, const void *bytes, size_t count)
{
    FILE *file = fopen(path, "wb");
    ck_assert_ptr_nonnull(file);
    ck_assert_uint_eq(fwrite(bytes, 1, count, file), count);
    ck_assert_int_eq(fclose(file), 0);
}

/* count bytes as one gzip member; the caller frees. */
static unsigned char *gzip(const void *bytes, size_t count, size_t *out_count)
{
    z_stream stream = {0};
    ck_assert_int_eq(deflateInit2(&stream, 9, Z_DEFLATED, 31, 8, Z_DEFAULT_STRATEGY), Z_OK);
    size_t room = deflateBound(&stream, (uLong)count);
    unsigned char *out = malloc(room);
    ck_assert_ptr_nonnull(out);
    stream.next_in = (z_const Bytef *)bytes;
    stream.avail_in = (uInt)count;
    stream.next_out = out;
    stream.avail_out = (uInt)room;
    ck_assert_int_eq(deflate(&stream, Z_FINISH), Z_STREAM_END);
    *out_count = room - stream.avail_out;
    (void)deflateEnd(&stream);
    return out;
}

/* Everything that can be read, and how it ended. */
static enum plm_status drain(struct plm_source *source, struct plmi_text *out, size_t chunk)
{
    char buffer[70000];
    size_t got = 0;
    enum plm_status status = PLM_STATUS_OK;
    plmi_text_init(out);
    while ((status = plm_source_read(source, buffer, chunk, &got)) == PLM_STATUS_OK) {
        ck_assert_uint_ge(got, 1);
        ck_assert_uint_le(got, chunk);
        plmi_text_add(out, buffer, got);
    }
    ck_assert_uint_eq(got, 0);
    ck_assert_int_eq(plm_source_read(source, buffer, chunk, &got), status);
    return status;
}

static void check_drain(struct plm_source *source, const void *want, size_t count, enum plm_status want_status)
{
    struct plmi_text out;
    enum plm_status status = drain(source, &out, sizeof(char[70000]));
    ck_assert_int_eq(status, want_status);
    ck_assert_uint_eq(out.count, count);
    ck_assert(count == 0 || memcmp(out.bytes, want, count) == 0);
    plmi_text_free(&out);
}

START_TEST(memory_is_read_looked_at_and_read_again)
{
    struct plm_source *source = NULL;
    ck_assert_int_eq(plm_source_open_memory(&source, "hello", 5, NULL, &rules, &sink), PLM_STATUS_OK);
    ck_assert_str_eq(plm_source_name(source), "memory");
    const unsigned char *bytes = NULL;
    size_t count = 0;
    char buffer[2];
    ck_assert_int_eq(plm_source_peek(source, &bytes, &count), PLM_STATUS_OK);
    ck_assert(count == 5 && memcmp(bytes, "hello", 5) == 0);
    ck_assert_int_eq(plm_source_read(source, buffer, 2, &count), PLM_STATUS_OK);
    ck_assert(count == 2 && memcmp(buffer, "he", 2) == 0);
    ck_assert_int_eq(plm_source_peek(source, &bytes, &count), PLM_STATUS_OK);
    ck_assert(count == 3 && memcmp(bytes, "llo", 3) == 0);
    check_drain(source, "llo", 3, PLM_STATUS_END);
    ck_assert_int_eq(plm_source_rewind(source), PLM_STATUS_OK);
    check_drain(source, "hello", 5, PLM_STATUS_END);
    plm_source_free(source);
    ck_assert_int_eq(told.count, 0);
}
END_TEST

START_TEST(nothing_is_an_end)
{
    struct plm_source *source = NULL;
    ck_assert_int_eq(plm_source_open_memory(&source, NULL, 0, "none", &rules, &sink), PLM_STATUS_OK);
    const unsigned char *bytes = NULL;
    size_t count = 7;
    ck_assert_int_eq(plm_source_peek(source, &bytes, &count), PLM_STATUS_OK);
    ck_assert_uint_eq(count, 0);
    check_drain(source, "", 0, PLM_STATUS_END);
    plm_source_free(source);
    plm_source_free(NULL);
}
END_TEST

START_TEST(a_file_is_read_whole)
{
    size_t count = 300000;
    unsigned char *bytes = malloc(count);
    for (size_t i = 0; i < count; i++) {
        bytes[i] = (unsigned char)(i * 7 + i / 251);
    }
    write_file("f", bytes, count);
    struct plm_source *source = NULL;
    ck_assert_int_eq(plm_source_open_file(&source, "f", NULL, &rules, &sink), PLM_STATUS_OK);
    const unsigned char *head = NULL;
    size_t looked = 0;
    ck_assert_int_eq(plm_source_peek(source, &head, &looked), PLM_STATUS_OK);
    ck_assert(looked == 65536 && memcmp(head, bytes, looked) == 0);
    check_drain(source, bytes, count, PLM_STATUS_END);
    ck_assert_int_eq(plm_source_rewind(source), PLM_STATUS_OK);
    check_drain(source, bytes, count, PLM_STATUS_END);
    plm_source_free(source);
    free(bytes);
}
END_TEST

static void check_refused(const char *path, enum plm_status want, const char *line)
{
    struct plm_source *source = NULL;
    sink = diag_list_sink(&told);
    ck_assert_int_eq(plm_source_open_file(&source, path, NULL, &rules, &sink), want);
    ck_assert_ptr_null(source);
    ck_assert_int_eq(told.count, 1);
    ck_assert_str_eq(told.lines[0], line);
}

START_TEST(what_is_no_file_is_refused)
{
    check_refused("none", PLM_STATUS_IO, "none: error: cannot be opened: no such file or directory [file-missing]");
    check_refused(".", PLM_STATUS_INPUT, ".: error: is a directory; not read [file-kind]");
    check_refused("/dev/zero", PLM_STATUS_INPUT, "/dev/zero: error: is a device; not read [file-kind]");
    struct sockaddr_un address = {.sun_family = AF_UNIX, .sun_path = "socket"};
    int fd = socket(AF_UNIX, SOCK_STREAM, 0);
    ck_assert_int_eq(bind(fd, (struct sockaddr *)&address, sizeof address), 0);
    check_refused("socket", PLM_STATUS_INPUT, "socket: error: is a socket; not read [file-kind]");
    (void)close(fd);
    ck_assert_int_eq(symlink("link", "link"), 0);
    check_refused("link", PLM_STATUS_IO, "link: error: cannot be opened: too many symbolic links [file-missing]");
}
END_TEST

START_TEST(a_pipe_is_kept_for_a_second_pass)
{
    ck_assert_int_eq(mkfifo("fifo", 0600), 0);
    pid_t child = fork();
    if (child == 0) {
        int fd = open("fifo", O_WRONLY);
        for (int i = 0; i < 20000; i++) {
            if (write(fd, "0123456789", 10) != 10) {
                _exit(1);
            }
        }
        _exit(0);
    }
    struct plm_source *source = NULL;
    ck_assert_int_eq(plm_source_open_file(&source, "fifo", "a pipe", &rules, &sink), PLM_STATUS_OK);
    ck_assert_str_eq(plm_source_name(source), "a pipe");
    struct plmi_text out;
    ck_assert_int_eq(drain(source, &out, 999), PLM_STATUS_END);
    ck_assert_uint_eq(out.count, 200000);
    plmi_text_free(&out);
    ck_assert_int_eq(plm_source_rewind(source), PLM_STATUS_OK);
    ck_assert_int_eq(drain(source, &out, 65536), PLM_STATUS_END);
    ck_assert_uint_eq(out.count, 200000);
    plmi_text_free(&out);
    plm_source_free(source);
    ck_assert_int_eq(waitpid(child, NULL, 0), child);
}
END_TEST

/* Standard input in place of what stands there. */
static void use_as_input(const char *path)
{
    int fd = open(path, O_RDONLY);
    ck_assert_int_ge(fd, 0);
    ck_assert_int_eq(dup2(fd, 0), 0);
    (void)close(fd);
}

START_TEST(standard_input)
{
    write_file("f", "abc", 3);
    use_as_input("f");
    struct plm_source *source = NULL;
    ck_assert_int_eq(plm_source_open_file(&source, "-", NULL, &rules, &sink), PLM_STATUS_OK);
    ck_assert_str_eq(plm_source_name(source), "-");
    check_drain(source, "abc", 3, PLM_STATUS_END);
    ck_assert_int_eq(plm_source_rewind(source), PLM_STATUS_OK);
    check_drain(source, "abc", 3, PLM_STATUS_END);
    plm_source_free(source);
    use_as_input(".");
    check_refused("-", PLM_STATUS_INPUT, "-: error: is a directory; not read [file-kind]");
    use_as_input("/dev/zero");
    ck_assert_int_eq(plm_rules_set(&rules, "file_max_mb", "1"), PLM_STATUS_OK);
    check_refused("-", PLM_STATUS_LIMIT, "-: error: larger than 1 MB (rule file_max_mb); not read [limit]");
}
END_TEST

START_TEST(a_large_file_is_refused_before_it_is_read)
{
    write_file("f", "x", 1);
    ck_assert_int_eq(truncate("f", 1000001), 0);
    ck_assert_int_eq(plm_rules_set(&rules, "file_max_mb", "1"), PLM_STATUS_OK);
    check_refused("f", PLM_STATUS_LIMIT, "f: error: larger than 1 MB (rule file_max_mb); not read [limit]");
    ck_assert_int_eq(truncate("f", 1000000), 0);
    struct plm_source *source = NULL;
    ck_assert_int_eq(plm_source_open_file(&source, "f", NULL, &rules, &sink), PLM_STATUS_OK);
    plm_source_free(source);
}
END_TEST

START_TEST(gzip_is_opened_by_its_bytes)
{
    static const char text[] = "time_s,depth_m\n0,0\n10,3\n";
    size_t count = 0;
    unsigned char *packed = gzip(text, sizeof text - 1, &count);
    write_file("f", packed, count);
    struct plm_source *source = NULL;
    ck_assert_int_eq(plm_source_open_file(&source, "f", NULL, &rules, &sink), PLM_STATUS_OK);
    const unsigned char *head = NULL;
    size_t looked = 0;
    ck_assert_int_eq(plm_source_peek(source, &head, &looked), PLM_STATUS_OK);
    ck_assert(looked == sizeof text - 1 && memcmp(head, text, looked) == 0);
    check_drain(source, text, sizeof text - 1, PLM_STATUS_END);
    ck_assert_int_eq(plm_source_rewind(source), PLM_STATUS_OK);
    check_drain(source, text, sizeof text - 1, PLM_STATUS_END);
    plm_source_free(source);
    free(packed);
    ck_assert_int_eq(told.count, 0);
}
END_TEST

/* Bytes in memory, read to their end: what came out and what was told. */
static void check_gzip(const void *bytes, size_t count, const void *want, size_t want_count,
                       enum plm_status want_status, const char *line)
{
    struct plm_source *source = NULL;
    sink = diag_list_sink(&told);
    ck_assert_int_eq(plm_source_open_memory(&source, bytes, count, "m", &rules, &sink), PLM_STATUS_OK);
    for (int pass = 0; pass < 2; pass++) {
        check_drain(source, want, want_count, want_status);
        ck_assert_int_eq(plm_source_rewind(source), PLM_STATUS_OK);
    }
    ck_assert_int_eq(told.count, line == NULL ? 0 : 1);
    ck_assert_msg(line == NULL || diag_list_has(&told, line), "%s", told.lines[0]);
    plm_source_free(source);
}

START_TEST(members_follow_each_other)
{
    size_t first_count = 0;
    size_t second_count = 0;
    unsigned char *first = gzip("one,", 4, &first_count);
    unsigned char *second = gzip("two", 3, &second_count);
    unsigned char both[200] = {0};
    memcpy(both, first, first_count);
    memcpy(both + first_count, second, second_count);
    size_t count = first_count + second_count;
    check_gzip(both, count, "one,two", 7, PLM_STATUS_END, NULL);
    check_gzip(both, count + 50, "one,two", 7, PLM_STATUS_END, NULL); /* padding with zeros */
    both[count] = 'x';
    check_gzip(both, count + 1, "one,two", 7, PLM_STATUS_END, "m: warning: bytes behind the compressed stream");
    check_gzip(both, first_count + 5, "one,", 4, PLM_STATUS_INPUT,
               "m: error: the compressed stream is cut short after 4 bytes");
    free(first);
    free(second);
}
END_TEST

START_TEST(damage_is_told)
{
    size_t plain_count = 100000;
    char *plain = malloc(plain_count);
    ck_assert_ptr_nonnull(plain);
    unsigned x = 1;
    for (size_t i = 0; i < plain_count; i++) {
        x = x * 1103515245U + 12345U;
        plain[i] = (char)('0' + (x >> 16) % 10);
    }
    size_t count = 0;
    unsigned char *packed = gzip(plain, plain_count, &count);
    check_gzip(packed, count, plain, plain_count, PLM_STATUS_END, NULL);
    for (size_t cut = 2; cut < count; cut += 997) {
        struct plm_source *source = NULL;
        sink = diag_list_sink(&told);
        ck_assert_int_eq(plm_source_open_memory(&source, packed, cut, "m", &rules, &sink), PLM_STATUS_OK);
        struct plmi_text out;
        ck_assert_int_eq(drain(source, &out, 4096), PLM_STATUS_INPUT);
        ck_assert(out.count <= plain_count && (out.count == 0 || memcmp(out.bytes, plain, out.count) == 0));
        ck_assert(told.count == 1 && diag_list_has(&told, "m: error: the compressed stream is cut short"));
        plmi_text_free(&out);
        plm_source_free(source);
    }
    packed[count - 5] ^= 1; /* the check sum */
    check_gzip(packed, count, plain, plain_count, PLM_STATUS_INPUT,
               "is damaged after 100000 bytes were read out of it");
    free(packed);
    free(plain);
}
END_TEST

START_TEST(a_bomb_is_stopped)
{
    size_t plain_count = 20000000;
    char *plain = calloc(1, plain_count);
    ck_assert_ptr_nonnull(plain);
    size_t count = 0;
    unsigned char *packed = gzip(plain, plain_count, &count);
    struct plm_source *source = NULL;
    struct plmi_text out;
    ck_assert_int_eq(plm_source_open_memory(&source, packed, count, "m", &rules, &sink), PLM_STATUS_OK);
    ck_assert_int_eq(drain(source, &out, 65536), PLM_STATUS_LIMIT);
    ck_assert_uint_le(out.count, 1048576 + 65536);
    ck_assert_str_eq(
        told.lines[0],
        "m: error: opens to more than 200 times its size (rule inflate_ratio_max); reading stops there [limit]");
    plmi_text_free(&out);
    plm_source_free(source);
    ck_assert_int_eq(plm_rules_set(&rules, "inflate_ratio_max", "10000"), PLM_STATUS_OK);
    ck_assert_int_eq(plm_rules_set(&rules, "file_max_mb", "19"), PLM_STATUS_OK);
    sink = diag_list_sink(&told);
    ck_assert_int_eq(plm_source_open_memory(&source, packed, count, "m", &rules, &sink), PLM_STATUS_OK);
    ck_assert_int_eq(drain(source, &out, 65536), PLM_STATUS_LIMIT);
    ck_assert(diag_list_has(&told, "larger than 19 MB when opened (rule file_max_mb)"));
    plmi_text_free(&out);
    plm_source_free(source);
    free(packed);
    free(plain);
}
END_TEST

static void check_digest(const void *bytes, size_t count, const char *want)
{
    struct plm_source *source = NULL;
    char hex[65];
    ck_assert_int_eq(plm_source_open_memory(&source, bytes, count, "m", &rules, &sink), PLM_STATUS_OK);
    char first;
    size_t got = 0;
    (void)plm_source_read(source, &first, 1, &got);
    ck_assert_int_eq(plm_source_sha256(source, hex), PLM_STATUS_OK);
    ck_assert_str_eq(hex, want);
    check_drain(source, bytes, count, PLM_STATUS_END);
    plm_source_free(source);
}

START_TEST(digest_of_the_bytes_as_stored)
{
    check_digest("", 0, "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
    check_digest("abc", 3, "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    check_digest("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq", 56,
                 "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
    /* "abc" compressed: the digest is that of the compressed bytes, as sha256sum prints it for the file. */
    static const unsigned char packed[] = {0x1f, 0x8b, 0x08, 0,    0,    0,    0,    0,    0x02, 0x03, 0x4b, 0x4c,
                                           0x4a, 0x06, 0,    0xc2, 0x41, 0x24, 0x35, 0x03, 0,    0,    0};
    struct plm_source *source = NULL;
    char hex[65];
    ck_assert_int_eq(plm_source_open_memory(&source, packed, sizeof packed, "m", &rules, &sink), PLM_STATUS_OK);
    ck_assert_int_eq(plm_source_sha256(source, hex), PLM_STATUS_OK);
    ck_assert_str_eq(hex, "0e595b139299cc148895fcdf42cb286dbc9230bd303f416289e2e98bf4a5bb46");
    check_drain(source, "abc", 3, PLM_STATUS_END);
    plm_source_free(source);
}
END_TEST

/* A zip archive is left as it is, so that a reader can name it. */
START_TEST(zip_is_not_opened)
{
    struct plm_source *source = NULL;
    const unsigned char *bytes = NULL;
    size_t count = 0;
    ck_assert_int_eq(plm_source_open_memory(&source, "PK\3\4rest", 8, "m", &rules, &sink), PLM_STATUS_OK);
    ck_assert_int_eq(plm_source_peek(source, &bytes, &count), PLM_STATUS_OK);
    ck_assert(count == 8 && memcmp(bytes, "PK\3\4", 4) == 0);
    plm_source_free(source);
}
END_TEST

int main(void)
{
    TCase *tests = tcase_create("source");
    tcase_set_timeout(tests, 60);
    tcase_add_checked_fixture(tests, set_up, tear_down);
    tcase_add_test(tests, memory_is_read_looked_at_and_read_again);
    tcase_add_test(tests, nothing_is_an_end);
    tcase_add_test(tests, a_file_is_read_whole);
    tcase_add_test(tests, what_is_no_file_is_refused);
    tcase_add_test(tests, a_pipe_is_kept_for_a_second_pass);
    tcase_add_test(tests, standard_input);
    tcase_add_test(tests, a_large_file_is_refused_before_it_is_read);
    tcase_add_test(tests, gzip_is_opened_by_its_bytes);
    tcase_add_test(tests, members_follow_each_other);
    tcase_add_test(tests, damage_is_told);
    tcase_add_test(tests, a_bomb_is_stopped);
    tcase_add_test(tests, digest_of_the_bytes_as_stored);
    tcase_add_test(tests, zip_is_not_opened);
    Suite *suite = suite_create("io");
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
