/*
 * SHA-256 of bytes that come in pieces (FIPS 180-4). Who computes it stands in digest.c alone.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_IO_DIGEST_H
#define PLM_IO_DIGEST_H

#include <stddef.h>

/* Bytes of a digest, and of its hexadecimal digits with their end. */
#define PLMI_DIGEST_BYTES 32
#define PLMI_DIGEST_HEX   (2 * PLMI_DIGEST_BYTES + 1)

/* A digest on the way: a plain value, with room for what the library behind it keeps. */
struct plmi_digest {
    unsigned char state[128];
};

void plmi_digest_init(struct plmi_digest *digest);
void plmi_digest_add(struct plmi_digest *digest, const void *bytes, size_t count);
/* The digest is over then. */
void plmi_digest_end(struct plmi_digest *digest, unsigned char bytes[PLMI_DIGEST_BYTES]);

/* All of the above for bytes that are at hand. */
void plmi_digest_of(const void *bytes, size_t count, unsigned char digest[PLMI_DIGEST_BYTES]);
/* A digest in lower case hexadecimal digits. */
void plmi_digest_hex(const unsigned char bytes[PLMI_DIGEST_BYTES], char hex[PLMI_DIGEST_HEX]);

#endif
