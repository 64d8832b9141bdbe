/*
 * Files on their way to being whole, and what becomes of them when a signal ends the program.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_CLI_PARTS_H
#define PLM_CLI_PARTS_H

#include <pthread.h>
#include <signal.h>
#include <stdbool.h>

/* A file that is not whole yet; part of a list while it is. */
struct plmi_cli_part {
    struct plmi_cli_part *next;
    char *path;
};

/* lock: held while parts are made and put away, so that none is there that is not in the list. */
struct plmi_cli_parts {
    pthread_mutex_t lock;
    struct plmi_cli_part *first;
    sigset_t signals;
    pthread_t thread;
    bool watched; /* the thread waits */
};

/*
 * From here on SIGINT, SIGTERM and SIGHUP, as far as they were not ignored, remove all parts and then end the program
 * as they would have. SIGXFSZ does not end it: writing fails instead. A thread waits for the signals, so that nothing
 * has to be done within a handler. Called before any other thread is started.
 *   parts  lives until plmi_cli_parts_leave
 */
void plmi_cli_parts_watch(struct plmi_cli_parts *parts);
/* No part is left, and none will be made: signals end the program as ever. */
void plmi_cli_parts_leave(struct plmi_cli_parts *parts);
/* Around every change of the list and of the files in it. */
void plmi_cli_parts_lock(struct plmi_cli_parts *parts);
void plmi_cli_parts_unlock(struct plmi_cli_parts *parts);

#endif
