/*
 * The replay of an edited copy of a dive that was replayed before: what both have in common is taken over.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REPLAY_EDITED_REPLAY_H
#define PLM_REPLAY_EDITED_REPLAY_H

#include <plimsoll/replay.h>

#include "replay/loop.h"

/* A dive and the trace that plm_replay made of it by the same options, but for their schedules. Borrowed. */
struct plmi_replayed {
    const struct plm_dive *dive;
    const struct plm_trace *trace;
};

/*
 * As plm_replay(out, dive, options, sink), to the last bit, but cheaper where the dive begins as the one replayed
 * before.
 *   out     [in,out] a trace of no more use, whose memory is taken, or NULL; it may be that of before, which is written
 *           over then
 *   before  NULL none
 */
enum plm_status plmi_edited_replay(struct plm_trace **out, const struct plm_dive *dive,
                                   const struct plmi_replayed *before, const struct plm_replay_options *options,
                                   const struct plm_diag_sink *sink);

/*
 * The last sample up to which two recordings of the same mixes are one, legs and oxygen between the samples included:
 * where a measurement stands, so that what follows is not looked at before it; 0 where they are not even that.
 */
size_t plmi_recordings_part(const struct plmi_recording *a, const struct plmi_recording *b);

#endif
