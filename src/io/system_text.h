/*
 * Words for the system's error numbers, without a locale.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_IO_SYSTEM_TEXT_H
#define PLM_IO_SYSTEM_TEXT_H

/* Short English words for errno, never NULL. */
const char *plmi_system_text(int number);

#endif
