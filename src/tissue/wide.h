/*
 * Loops over compartments by the widest instructions of the processor: the same sums in the same order, four at a time
 * in place of two, so that the figures are the same. Must not allow contraction or another order.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_TISSUE_WIDE_H
#define PLM_TISSUE_WIDE_H

#if defined(__x86_64__) && defined(__ELF__) && defined(__GNUC__) && !defined(__clang__) && \
    !defined(__SANITIZE_ADDRESS__)
/* A function made twice; which one is called is settled when the program starts. */
#define PLMI_WIDE __attribute__((target_clones("avx2", "default")))
#else
#define PLMI_WIDE
#endif

/* Part of whatever calls it, so that it is as wide. */
#if defined(__GNUC__)
#define PLMI_INSIDE static inline __attribute__((always_inline))
#else
#define PLMI_INSIDE static inline
#endif

#endif
