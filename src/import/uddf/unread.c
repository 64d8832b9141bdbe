/*
 * Elements of waypoints that are recorded and not read: counted while the file is walked, reported at its end.
 * SPDX-License-Identifier: MIT
 */
#include "import/uddf/unread.h"

#include <string.h>

void plmi_uddf_unread_count(struct plmi_reader *reader, const char *name, long line)
{
    for (size_t i = 0; i < reader->unread_count; i++) {
        if (strcmp(reader->unread[i].name, name) == 0) {
            reader->unread[i].count++;
            return;
        }
    }
    if (reader->unread_count < sizeof reader->unread / sizeof reader->unread[0] &&
        strlen(name) < sizeof reader->unread[0].name) {
        memcpy(reader->unread[reader->unread_count].name, name, strlen(name) + 1);
        reader->unread[reader->unread_count].line = line;
        reader->unread[reader->unread_count++].count = 1;
    }
}

void plmi_uddf_unread_tell(struct plmi_reader *reader)
{
    for (size_t i = 0; i < reader->unread_count; i++) {
        plmi_diags_add(reader->diags, PLM_LEVEL_NOTE, PLM_DIAG_UNUSED, reader->unread[i].line, 0,
                       "recorded and not read: %s, %ld time%s", reader->unread[i].name, reader->unread[i].count,
                       reader->unread[i].count == 1 ? "" : "s");
    }
    reader->unread_count = 0;
}
