/*
 * Reserves standard input, output and error. Must not change those that are open.
 * SPDX-License-Identifier: MIT
 */
#include "cli/descriptors.h"

#include <errno.h>
#include <fcntl.h>
#include <stddef.h>
#include <unistd.h>

/* A device, so that by name too (/dev/stdout) nothing is written; the full one says so, the other is everywhere. */
static int dead_end_open(int way)
{
    static const char *const devices[] = {"/dev/full", "/dev/null"};
    int fd = -1;
    for (size_t i = 0; fd < 0 && i < sizeof devices / sizeof devices[0]; i++) {
        fd = open(devices[i], way | O_NOCTTY);
    }
    return fd;
}

bool plmi_cli_descriptors_reserve(void)
{
    /* Each is opened the wrong way round: reading from standard input fails, and so does writing to the others. */
    static const int ways[] = {[STDIN_FILENO] = O_WRONLY, [STDOUT_FILENO] = O_RDONLY, [STDERR_FILENO] = O_RDONLY};
    for (int fd = STDIN_FILENO; fd <= STDERR_FILENO; fd++) {
        if (fcntl(fd, F_GETFD) < 0 && errno == EBADF && dead_end_open(ways[fd]) != fd) {
            return false;
        }
    }
    return true;
}
