/*
 * SHA-256 against published digests, whatever the pieces in which bytes come.
 * Source: FIPS 180-4, its examples (NIST, SHA256.pdf: "abc", 448 bits, a million times "a"), and the empty message.
 * SPDX-License-Identifier: MIT
 */
#include <string.h>

#include "io/digest.h"
#include "support/random.h"
#include "support/suite.h"

static void check(const char *message, size_t times, const char *want)
{
    unsigned char bytes[PLMI_DIGEST_BYTES];
    char hex[PLMI_DIGEST_HEX];
    struct plmi_digest digest;
    plmi_digest_init(&digest);
    for (size_t i = 0; i < times; i++) {
        plmi_digest_add(&digest, message, strlen(message));
    }
    plmi_digest_end(&digest, bytes);
    plmi_digest_hex(bytes, hex);
    ck_assert_str_eq(hex, want);
}

START_TEST(published_digests)
{
    check("", 1, "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
    check("abc", 1, "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    check("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq", 1,
          "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
    check("a", 1000000, "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
}
END_TEST

/* Every length about the ends of blocks, in pieces and at once. */
START_TEST(any_length_in_any_pieces)
{
    static unsigned char bytes[1000];
    struct seeded seeded = {1};
    for (size_t i = 0; i < sizeof bytes; i++) {
        bytes[i] = (unsigned char)(seeded_uniform(&seeded) * 256);
    }
    for (size_t count = 0; count < sizeof bytes; count++) {
        unsigned char pieces[PLMI_DIGEST_BYTES], whole[PLMI_DIGEST_BYTES];
        struct plmi_digest digest;
        plmi_digest_init(&digest);
        for (size_t at = 0; at < count;) {
            size_t piece = 1 + (size_t)(seeded_uniform(&seeded) * 150);
            piece = piece < count - at ? piece : count - at;
            plmi_digest_add(&digest, bytes + at, piece);
            at += piece;
        }
        plmi_digest_end(&digest, pieces);
        plmi_digest_of(bytes, count, whole);
        ck_assert_mem_eq(pieces, whole, sizeof whole);
    }
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {published_digests, any_length_in_any_pieces};
    return SUITE_RUN("digest", tests);
}
