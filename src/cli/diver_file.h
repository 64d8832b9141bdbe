/*
 * Names of divers: as options, and as files and folders.
 * Includes public headers of the library only.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_CLI_DIVER_FILE_H
#define PLM_CLI_DIVER_FILE_H

#include <stdbool.h>

#include <plimsoll/diag.h>

#define PLMI_CLI_DIVER_FILE_BYTES 96

/*
 * The part of a path that stands for a diver, in buffer[PLMI_CLI_DIVER_FILE_BYTES]: letters, digits and '-' as they
 * are, blanks as '_'. Where anything else was in the name, '+' and the beginning of the SHA-256 of its key stand
 * behind. So no two names that plm_name_same tells apart have one, not even where a file system knows no case and
 * composes letters otherwise, and none has a '.' in it.
 * Returns: false without memory, reported.
 */
bool plmi_cli_diver_file(const char *diver, char *buffer, const struct plm_diag_sink *sink);

/* What the value of an option that names a diver should have been, in words; NULL where it is a name. */
const char *plmi_cli_diver_expected(const char *value);

#endif
