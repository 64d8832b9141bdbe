/*
 * Digests of bytes at hand, and digests as people see them. Must not know who computes them.
 * SPDX-License-Identifier: MIT
 */
#include "io/digest.h"

void plmi_digest_of(const void *bytes, size_t count, unsigned char digest[PLMI_DIGEST_BYTES])
{
    struct plmi_digest whole;
    plmi_digest_init(&whole);
    plmi_digest_add(&whole, bytes, count);
    plmi_digest_end(&whole, digest);
}

void plmi_digest_hex(const unsigned char bytes[PLMI_DIGEST_BYTES], char hex[PLMI_DIGEST_HEX])
{
    static const char digits[] = "0123456789abcdef";
    for (size_t i = 0; i < PLMI_DIGEST_BYTES; i++) {
        hex[2 * i] = digits[bytes[i] >> 4];
        hex[2 * i + 1] = digits[bytes[i] & 15];
    }
    hex[PLMI_DIGEST_HEX - 1] = '\0';
}
