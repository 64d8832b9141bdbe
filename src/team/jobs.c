/*
 * A row of threads that each take the next piece of work until there is none.
 * SPDX-License-Identifier: MIT
 */
#include "team/jobs.h"

#include <pthread.h>

#define THREADS_MAX 256

struct jobs {
    pthread_mutex_t lock;
    size_t next, count;
    void (*work)(void *context, size_t i);
    void *context;
};

static size_t take(struct jobs *jobs)
{
    pthread_mutex_lock(&jobs->lock);
    size_t i = jobs->next < jobs->count ? jobs->next++ : jobs->count;
    pthread_mutex_unlock(&jobs->lock);
    return i;
}

static void *worker(void *argument)
{
    struct jobs *jobs = argument;
    for (size_t i = take(jobs); i < jobs->count; i = take(jobs)) {
        jobs->work(jobs->context, i);
    }
    return NULL;
}

void plmi_jobs_run(size_t count, size_t threads, void (*work)(void *context, size_t i), void *context)
{
    pthread_t others[THREADS_MAX];
    struct jobs jobs = {.count = count, .work = work, .context = context};
    size_t made = 0;
    if (threads > THREADS_MAX) {
        threads = THREADS_MAX;
    }
    if (pthread_mutex_init(&jobs.lock, NULL) != 0) {
        for (size_t i = 0; i < count; i++) {
            work(context, i);
        }
        return;
    }
    while (made + 1 < threads && made + 1 < count && pthread_create(&others[made], NULL, worker, &jobs) == 0) {
        made++;
    }
    (void)worker(&jobs);
    for (size_t i = 0; i < made; i++) {
        (void)pthread_join(others[i], NULL);
    }
    pthread_mutex_destroy(&jobs.lock);
}
