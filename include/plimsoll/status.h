/*
 * What a call came to, for the caller. The person reads diagnostics instead.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_STATUS_H
#define PLM_STATUS_H

#include <plimsoll/api.h>

#ifdef __cplusplus
extern "C" {
#endif

/* Outcome of a call. Everything but OK and END has reported a diagnostic
 * where a sink was given. */
enum plm_status {
    PLM_STATUS_OK = 0,
    PLM_STATUS_END,       /* nothing more to read                           */
    PLM_STATUS_INPUT,     /* the input cannot be used                       */
    PLM_STATUS_LIMIT,     /* the input crosses a bound set by rule          */
    PLM_STATUS_IO,        /* reading or writing failed                      */
    PLM_STATUS_MEMORY,    /* no memory                                      */
    PLM_STATUS_ARGUMENT,  /* the caller's arguments cannot be used          */
    PLM_STATUS_UNSOLVABLE /* no answer exists, as a stop that never clears  */
};

/* Short English word for a status, never NULL. */
PLM_API const char *plm_status_text(enum plm_status status);

#ifdef __cplusplus
}
#endif

#endif
