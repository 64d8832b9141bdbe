/*
 * Marks what the library shows to its users. Everything else is hidden.
 * Must not include anything.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_API_H
#define PLM_API_H

#if defined(__GNUC__)
#define PLM_API __attribute__((visibility("default")))
#else
#define PLM_API
#endif

#endif
