/*
 * Asks the terminal and the environment. Must not write anything.
 * SPDX-License-Identifier: MIT
 */
#include "cli/terminal.h"

#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <unistd.h>

#define COLUMNS_USUAL 80
#define COLUMNS_LEAST 40
#define COLUMNS_MOST  100

int plmi_cli_terminal_columns(int descriptor)
{
    struct winsize size = {.ws_col = 0};
    if (!isatty(descriptor) || ioctl(descriptor, TIOCGWINSZ, &size) != 0 || size.ws_col == 0) {
        return COLUMNS_USUAL;
    }
    return size.ws_col < COLUMNS_LEAST ? COLUMNS_LEAST : size.ws_col > COLUMNS_MOST ? COLUMNS_MOST : size.ws_col;
}

bool plmi_cli_terminal_ascii(void)
{
    static const char *const names[] = {"LC_ALL", "LC_CTYPE", "LANG"};
    static const char *const marks[] = {"UTF-8", "utf-8", "UTF8", "utf8"};
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        const char *value = getenv(names[i]);
        if (value == NULL || value[0] == '\0') {
            continue;
        }
        for (size_t k = 0; k < sizeof marks / sizeof marks[0]; k++) {
            if (strstr(value, marks[k]) != NULL) {
                return false;
            }
        }
        return true;
    }
    return true;
}
