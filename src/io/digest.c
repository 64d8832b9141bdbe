/*
 * SHA-256: blocks and padding here, the rounds by the processor or by libmd.
 * Must not read anything.
 * SPDX-License-Identifier: MIT
 */
#include "io/digest.h"

#include <sha256.h>
#include <string.h>

static void blocks_by_library(uint32_t state[8], const unsigned char *bytes, size_t blocks)
{
    for (size_t i = 0; i < blocks; i++) {
        SHA256Transform(state, bytes + i * PLMI_DIGEST_BLOCK);
    }
}

void plmi_digest_init(struct plmi_digest *digest)
{
    /* FIPS 180-4, 5.3.3. */
    static const uint32_t first[8] = {0x6a09e667, 0xbb67ae85, 0x3c6ef372, 0xa54ff53a,
                                      0x510e527f, 0x9b05688c, 0x1f83d9ab, 0x5be0cd19};
    memcpy(digest->state, first, sizeof first);
    digest->count = 0;
    digest->blocks = plmi_digest_by_processor();
    if (digest->blocks == NULL) {
        digest->blocks = blocks_by_library;
    }
}

void plmi_digest_add(struct plmi_digest *digest, const void *bytes, size_t count)
{
    const unsigned char *at = bytes;
    size_t held = (size_t)(digest->count % PLMI_DIGEST_BLOCK);
    digest->count += count;
    if (held > 0) {
        size_t room = PLMI_DIGEST_BLOCK - held, taken = count < room ? count : room;
        memcpy(digest->waiting + held, at, taken);
        at += taken;
        count -= taken;
        if (taken < room) {
            return;
        }
        digest->blocks(digest->state, digest->waiting, 1);
    }
    digest->blocks(digest->state, at, count / PLMI_DIGEST_BLOCK);
    at += count - count % PLMI_DIGEST_BLOCK;
    if (count % PLMI_DIGEST_BLOCK > 0) {
        memcpy(digest->waiting, at, count % PLMI_DIGEST_BLOCK);
    }
}

/* A one, zeros, and the length in bits: FIPS 180-4, 5.1.1. */
static void pad(struct plmi_digest *digest)
{
    unsigned char end[2 * PLMI_DIGEST_BLOCK] = {0x80};
    size_t held = (size_t)(digest->count % PLMI_DIGEST_BLOCK);
    size_t zeros = (held < PLMI_DIGEST_BLOCK - 8 ? PLMI_DIGEST_BLOCK : 2 * PLMI_DIGEST_BLOCK) - 8 - held;
    uint64_t bits = 8 * digest->count;
    for (size_t i = 0; i < 8; i++) {
        end[zeros + i] = (unsigned char)(bits >> (56 - 8 * i));
    }
    plmi_digest_add(digest, end, zeros + 8);
}

void plmi_digest_end(struct plmi_digest *digest, char hex[65])
{
    static const char digits[] = "0123456789abcdef";
    pad(digest);
    for (size_t i = 0; i < 64; i++) {
        uint32_t digit = digest->state[i / 8] >> (28U - 4U * (i % 8)) & 15U;
        hex[i] = digits[digit];
    }
    hex[64] = '\0';
}
