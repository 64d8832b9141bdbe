/*
 * Waits for signals that end the program. Must not do anything else with them: what is written where is not its
 * business.
 * SPDX-License-Identifier: MIT
 */
#include "cli/parts.h"

#include <stddef.h>
#include <time.h>
#include <unistd.h>

/* A part is made and put away at once, but for a system that does not answer: then the signal goes first. */
#define PATIENCE_S 1

static void end_by(int number, const sigset_t *signals)
{
    (void)pthread_sigmask(SIG_UNBLOCK, signals, NULL);
    (void)raise(number);
    /* A signal does not end the first process of a system. */
    _exit(128 + number);
}

static void *signals_await(void *context)
{
    struct plmi_cli_parts *parts = context;
    struct timespec until = {0};
    int number = 0;
    if (sigwait(&parts->signals, &number) != 0) {
        return NULL;
    }
    (void)pthread_setcancelstate(PTHREAD_CANCEL_DISABLE, NULL);
    (void)clock_gettime(CLOCK_REALTIME, &until);
    until.tv_sec += PATIENCE_S;
    /* Not given back: nothing is begun any more. */
    (void)pthread_mutex_timedlock(&parts->lock, &until);
    for (const struct plmi_cli_part *part = parts->first; part != NULL; part = part->next) {
        (void)unlink(part->path);
    }
    end_by(number, &parts->signals);
    return NULL;
}

void plmi_cli_parts_watch(struct plmi_cli_parts *parts)
{
    static const int numbers[] = {SIGINT, SIGTERM, SIGHUP};
    *parts = (struct plmi_cli_parts){.first = NULL};
    (void)pthread_mutex_init(&parts->lock, NULL);
    (void)sigemptyset(&parts->signals);
    for (size_t i = 0; i < sizeof numbers / sizeof numbers[0]; i++) {
        struct sigaction was;
        if (sigaction(numbers[i], NULL, &was) == 0 && was.sa_handler != SIG_IGN) {
            (void)sigaddset(&parts->signals, numbers[i]);
        }
    }
    /* A file that grows beyond a limit is then an error that is reported. */
    (void)signal(SIGXFSZ, SIG_IGN);
    (void)pthread_sigmask(SIG_BLOCK, &parts->signals, NULL);
    /* Without a thread they end the program as ever, and what is not whole stays. */
    parts->watched = pthread_create(&parts->thread, NULL, signals_await, parts) == 0;
    if (!parts->watched) {
        (void)pthread_sigmask(SIG_UNBLOCK, &parts->signals, NULL);
    }
}

void plmi_cli_parts_leave(struct plmi_cli_parts *parts)
{
    if (parts->watched) {
        /* A signal that came before is seen to its end: the thread is not to be cancelled from then on, and does not
         * come back. */
        (void)pthread_cancel(parts->thread);
        (void)pthread_join(parts->thread, NULL);
        (void)pthread_sigmask(SIG_UNBLOCK, &parts->signals, NULL);
    }
    (void)pthread_mutex_destroy(&parts->lock);
}

void plmi_cli_parts_lock(struct plmi_cli_parts *parts)
{
    (void)pthread_mutex_lock(&parts->lock);
}

void plmi_cli_parts_unlock(struct plmi_cli_parts *parts)
{
    (void)pthread_mutex_unlock(&parts->lock);
}
