/*
 * SHA-256 by the instructions that x86-64 processors have for it: a digest costs next to nothing beside reading then.
 * Where a processor lacks them, or the compiler cannot say, libmd does the work; both give the same digits.
 * SPDX-License-Identifier: MIT
 */
#include "io/digest.h"

#if defined(__x86_64__) && defined(__GNUC__)

#include <cpuid.h>
#include <immintrin.h>

/* FIPS 180-4, 4.2.2. */
static const uint32_t rounds[64] = {
    0x428a2f98, 0x71374491, 0xb5c0fbcf, 0xe9b5dba5, 0x3956c25b, 0x59f111f1, 0x923f82a4, 0xab1c5ed5,
    0xd807aa98, 0x12835b01, 0x243185be, 0x550c7dc3, 0x72be5d74, 0x80deb1fe, 0x9bdc06a7, 0xc19bf174,
    0xe49b69c1, 0xefbe4786, 0x0fc19dc6, 0x240ca1cc, 0x2de92c6f, 0x4a7484aa, 0x5cb0a9dc, 0x76f988da,
    0x983e5152, 0xa831c66d, 0xb00327c8, 0xbf597fc7, 0xc6e00bf3, 0xd5a79147, 0x06ca6351, 0x14292967,
    0x27b70a85, 0x2e1b2138, 0x4d2c6dfc, 0x53380d13, 0x650a7354, 0x766a0abb, 0x81c2c92e, 0x92722c85,
    0xa2bfe8a1, 0xa81a664b, 0xc24b8b70, 0xc76c51a3, 0xd192e819, 0xd6990624, 0xf40e3585, 0x106aa070,
    0x19a4c116, 0x1e376c08, 0x2748774c, 0x34b0bcb5, 0x391c0cb3, 0x4ed8aa4a, 0x5b9cca4f, 0x682e6ff3,
    0x748f82ee, 0x78a5636f, 0x84c87814, 0x8cc70208, 0x90befffa, 0xa4506ceb, 0xbef9a3f7, 0xc67178f2,
};

#define BY_PROCESSOR __attribute__((target("sha,sse4.1,ssse3")))

/* The words of a state as the instructions want them: abef and cdgh. */
struct halves {
    __m128i abef, cdgh;
};

/* Four rounds on four words of the schedule. */
BY_PROCESSOR static void four_rounds(struct halves *state, __m128i words, size_t first)
{
    __m128i sums = _mm_add_epi32(words, _mm_loadu_si128((const __m128i *)(const void *)&rounds[first]));
    state->cdgh = _mm_sha256rnds2_epu32(state->cdgh, state->abef, sums);
    state->abef = _mm_sha256rnds2_epu32(state->abef, state->cdgh, _mm_shuffle_epi32(sums, 0x0e));
}

/* The next four words of the schedule from the last sixteen, w[at] the oldest. */
BY_PROCESSOR static __m128i next_words(const __m128i w[4], size_t at)
{
    __m128i last = w[(at + 3) % 4];
    __m128i sums =
        _mm_add_epi32(_mm_sha256msg1_epu32(w[at], w[(at + 1) % 4]), _mm_alignr_epi8(last, w[(at + 2) % 4], 4));
    return _mm_sha256msg2_epu32(sums, last);
}

BY_PROCESSOR static void block_add(struct halves *state, const unsigned char *bytes)
{
    const __m128i from_big_end = _mm_set_epi64x(0x0c0d0e0f08090a0b, 0x0405060700010203);
    struct halves before = *state;
    __m128i w[4];
    for (size_t i = 0; i < 4; i++) {
        w[i] = _mm_shuffle_epi8(_mm_loadu_si128((const __m128i *)(const void *)(bytes + 16 * i)), from_big_end);
        four_rounds(state, w[i], 4 * i);
    }
    for (size_t i = 4; i < 16; i++) {
        w[i % 4] = next_words(w, i % 4);
        four_rounds(state, w[i % 4], 4 * i);
    }
    state->abef = _mm_add_epi32(state->abef, before.abef);
    state->cdgh = _mm_add_epi32(state->cdgh, before.cdgh);
}

BY_PROCESSOR static void blocks_by_processor(uint32_t state[8], const unsigned char *bytes, size_t blocks)
{
    __m128i badc = _mm_shuffle_epi32(_mm_loadu_si128((const __m128i *)(const void *)state), 0xb1);
    __m128i hgfe = _mm_shuffle_epi32(_mm_loadu_si128((const __m128i *)(const void *)(state + 4)), 0x1b);
    struct halves halves = {_mm_alignr_epi8(badc, hgfe, 8), _mm_blend_epi16(hgfe, badc, 0xf0)};
    for (size_t i = 0; i < blocks; i++) {
        block_add(&halves, bytes + i * PLMI_DIGEST_BLOCK);
    }
    __m128i feba = _mm_shuffle_epi32(halves.abef, 0x1b), dchg = _mm_shuffle_epi32(halves.cdgh, 0xb1);
    _mm_storeu_si128((__m128i *)(void *)state, _mm_blend_epi16(feba, dchg, 0xf0));
    _mm_storeu_si128((__m128i *)(void *)(state + 4), _mm_alignr_epi8(dchg, feba, 8));
}

plmi_digest_blocks *plmi_digest_by_processor(void)
{
    unsigned a, b, c, d;
    bool sse = __get_cpuid(1, &a, &b, &c, &d) != 0 && (c & (unsigned)bit_SSE4_1) != 0 && (c & (unsigned)bit_SSSE3) != 0;
    bool sha = __get_cpuid_count(7, 0, &a, &b, &c, &d) != 0 && (b & (unsigned)bit_SHA) != 0;
    return sse && sha ? blocks_by_processor : NULL;
}

#else

plmi_digest_blocks *plmi_digest_by_processor(void)
{
    return NULL;
}

#endif
