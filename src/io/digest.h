/*
 * SHA-256 of bytes that come in pieces (FIPS 180-4).
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_IO_DIGEST_H
#define PLM_IO_DIGEST_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#define PLMI_DIGEST_BLOCK ((size_t)64)

/* Takes whole blocks into the state. */
typedef void plmi_digest_blocks(uint32_t state[8], const unsigned char *bytes, size_t blocks);

struct plmi_digest {
    uint32_t state[8];
    uint64_t count;                           /* bytes so far */
    unsigned char waiting[PLMI_DIGEST_BLOCK]; /* the last count % PLMI_DIGEST_BLOCK of them */
    plmi_digest_blocks *blocks;
};

void plmi_digest_init(struct plmi_digest *digest);
void plmi_digest_add(struct plmi_digest *digest, const void *bytes, size_t count);
/* In hexadecimal digits; the digest is over then. */
void plmi_digest_end(struct plmi_digest *digest, char hex[65]);

/* The processor's own instructions for it, where it has them, else NULL. */
plmi_digest_blocks *plmi_digest_by_processor(void);

#endif
