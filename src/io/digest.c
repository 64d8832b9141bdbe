/*
 * SHA-256 by Nettle, which takes the processor's own instructions for it where there are any.
 * For a build without Nettle a file with these three functions over another library takes the place of this one.
 * SPDX-License-Identifier: MIT
 */
#include "io/digest.h"

#include <nettle/sha2.h>
#include <string.h>

_Static_assert(sizeof(struct sha256_ctx) <= sizeof(struct plmi_digest), "the state of a digest is too small");
_Static_assert(SHA256_DIGEST_SIZE == PLMI_DIGEST_BYTES, "a digest of another size");

void plmi_digest_init(struct plmi_digest *digest)
{
    struct sha256_ctx context;
    sha256_init(&context);
    memcpy(digest->state, &context, sizeof context);
}

void plmi_digest_add(struct plmi_digest *digest, const void *bytes, size_t count)
{
    struct sha256_ctx context;
    memcpy(&context, digest->state, sizeof context);
    sha256_update(&context, count, bytes);
    memcpy(digest->state, &context, sizeof context);
}

void plmi_digest_end(struct plmi_digest *digest, unsigned char bytes[PLMI_DIGEST_BYTES])
{
    struct sha256_ctx context;
    memcpy(&context, digest->state, sizeof context);
    sha256_digest(&context, PLMI_DIGEST_BYTES, bytes);
}
