/*
 * SHA-256, by the processor and by the library, against published digests and against libmd as a whole.
 * Source: FIPS 180-4, its examples (NIST, SHA256.pdf: "abc", 448 bits, a million times "a"), and the empty message.
 * SPDX-License-Identifier: MIT
 */
#include <sha256.h>
#include <stdio.h>
#include <string.h>

#include "io/digest.h"
#include "support/random.h"
#include "support/suite.h"

static void check(const char *message, size_t times, const char *want)
{
    char hex[65];
    struct plmi_digest digest;
    plmi_digest_init(&digest);
    for (size_t i = 0; i < times; i++) {
        plmi_digest_add(&digest, message, strlen(message));
    }
    plmi_digest_end(&digest, hex);
    ck_assert_str_eq(hex, want);
}

START_TEST(published_digests)
{
    printf("rounds by the %s\n", plmi_digest_by_processor() != NULL ? "processor" : "library");
    check("", 1, "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
    check("abc", 1, "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    check("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq", 1,
          "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
    check("a", 1000000, "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
}
END_TEST

/* Every length about the ends of blocks, in pieces. */
START_TEST(any_length_in_any_pieces)
{
    static unsigned char bytes[1000];
    struct seeded seeded = {1};
    for (size_t i = 0; i < sizeof bytes; i++) {
        bytes[i] = (unsigned char)(seeded_uniform(&seeded) * 256);
    }
    for (size_t count = 0; count < sizeof bytes; count++) {
        char hex[65], want[SHA256_DIGEST_STRING_LENGTH];
        struct plmi_digest digest;
        plmi_digest_init(&digest);
        for (size_t at = 0; at < count;) {
            size_t piece = 1 + (size_t)(seeded_uniform(&seeded) * 150);
            piece = piece < count - at ? piece : count - at;
            plmi_digest_add(&digest, bytes + at, piece);
            at += piece;
        }
        plmi_digest_end(&digest, hex);
        ck_assert_str_eq(hex, SHA256Data(bytes, count, want));
    }
}
END_TEST

/* The library's rounds, which this processor may never take. */
START_TEST(rounds_by_the_library)
{
    uint32_t a[8], b[8];
    unsigned char block[PLMI_DIGEST_BLOCK] = "what the processor makes of it is what the library makes of it";
    struct plmi_digest digest;
    plmi_digest_init(&digest);
    memcpy(a, digest.state, sizeof a);
    memcpy(b, digest.state, sizeof b);
    digest.blocks(a, block, 1);
    SHA256Transform(b, block);
    ck_assert_mem_eq(a, b, sizeof a);
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {published_digests, any_length_in_any_pieces, rounds_by_the_library};
    return SUITE_RUN("digest", tests);
}
