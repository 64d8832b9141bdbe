/*
 * Events in the order of their time.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_DIVE_EVENTS_ORDER_H
#define PLM_DIVE_EVENTS_ORDER_H

#include <plimsoll/dive.h>

/* Puts events in the order of time; stable. false without memory: they stay as they were. */
bool plmi_events_order(struct plm_event *events, size_t count);

#endif
