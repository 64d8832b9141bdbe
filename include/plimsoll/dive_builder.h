/*
 * Building a dive: the only place where a recording is checked and put right, each repair reported with its line.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_DIVE_BUILDER_H
#define PLM_DIVE_BUILDER_H

#include <plimsoll/diag.h>
#include <plimsoll/dive.h>
#include <plimsoll/rules.h>
#include <plimsoll/status.h>

#ifdef __cplusplus
extern "C" {
#endif

struct plm_dive_builder; /* opaque */

/* rules are copied, sink is borrowed. NULL without memory. */
PLM_API struct plm_dive_builder *plm_dive_builder_new(const char *file, const struct plm_rules *rules,
                                                      const struct plm_diag_sink *sink);
/* Gives the dive up. NULL is allowed; not after _finish. */
PLM_API void plm_dive_builder_free(struct plm_dive_builder *builder);
/* The facts about the whole dive, to be filled before _finish; its strings are copied by _text. */
PLM_API struct plm_dive_info *plm_dive_builder_info(struct plm_dive_builder *builder);
/* A copy that lives as long as the dive; NULL for NULL or without memory. */
PLM_API const char *plm_dive_builder_text(struct plm_dive_builder *builder, const char *text);

/*
 * Adds a mix. Fractions as the source has them (NaN: not stated): missing n2 = rest, missing he = 0; sums off by
 * 0.005..0.02 warn, more is an error; ar counts as N2; h2 above 0 is refused.
 *   index [out] its index
 * Returns: OK, INPUT, LIMIT for more than 1000 mixes, MEMORY (reported).
 */
PLM_API enum plm_status plm_dive_builder_mix(struct plm_dive_builder *builder, const char *id, const char *name,
                                             double o2_frac, double he_frac, double n2_frac, double ar_frac,
                                             double h2_frac, enum plm_mix_use use, uint32_t line, uint32_t *index);
/* Index of the mix with these fractions (to 1e-6), added as needed. */
PLM_API enum plm_status plm_dive_builder_mix_find(struct plm_dive_builder *builder, double o2_frac, double he_frac,
                                                  uint32_t line, uint32_t *index);
/* Marks a mix as carried for schedules. po2_max_bar NaN: rule. */
PLM_API void plm_dive_builder_carry(struct plm_dive_builder *builder, uint32_t mix, enum plm_mix_use use,
                                    double po2_max_bar);

/* Settings from now on: they take effect at the next sample added (for that sample's time on). NaN setpoint: none. */
PLM_API void plm_dive_builder_mode(struct plm_dive_builder *builder, enum plm_mode mode, uint32_t line);
/* The mix breathed from now on, the diluent on a loop; mix is an index that _mix gave. */
PLM_API void plm_dive_builder_switch(struct plm_dive_builder *builder, uint32_t mix, uint32_t line);
/* The set point [bar] in force from now on; NaN: none. */
PLM_API void plm_dive_builder_setpoint(struct plm_dive_builder *builder, double setpoint_bar, uint32_t line);

/* Times of the sample; NaN for what is unknown. setting is ignored. time_ms going back: dropped and reported; deeper
 * than rules->depth_max_m, or higher than no pressure at all would read: dropped, reported and kept in info.odd. Never
 * loses anything silently. */
PLM_API enum plm_status plm_dive_builder_sample(struct plm_dive_builder *builder, const struct plm_sample *sample);
/* Where the samples added so far go under water and come up, as plm_dive_wet tells it of a dive; 0 and 0 without
 * samples. */
PLM_API void plm_dive_builder_wet(const struct plm_dive_builder *builder, int64_t *from_ms, int64_t *to_ms);
/* text is copied. */
PLM_API enum plm_status plm_dive_builder_event(struct plm_dive_builder *builder, const struct plm_event *event);
/* Takes ownership of plan. */
PLM_API void plm_dive_builder_plan(struct plm_dive_builder *builder, struct plm_dive *plan);

/*
 * Checks the whole, takes depths above the surface as 0 m (below -1 m with a warning; one or two in the midst that are
 * above it by more than rules->above_surface_max_m are dropped), drops samples that no diver can have swum to and from
 * (rules->spike_m_min, spike_least_m: one or two of them, or one at an end of the record; never more than a quarter of
 * a record) and reports single ones that are doubtful (rules->doubt_m_min), all of which info.odd names, puts the edges
 * right (a first sample below the surface gets a surface sample before it, reported), finds the depth step, warns of
 * gaps, frees the builder. A gap in the water longer than rules->gap_max_min, and a dive longer than rules->dive_max_h,
 * end the record there, and so do more samples or events than rules->samples_max: what is behind is dropped and
 * reported, and info.ends_in_water is set, as it is where the last sample is 3 m deep or deeper. A gap as long that
 * begins at the surface is spent there, reported; what was recorded there more than rules->dive_max_h before the dive
 * is dropped and reported. Returns: OK and *out; INPUT (fewer than 2 samples, never below the surface ... reported) and
 * *out NULL.
 */
PLM_API enum plm_status plm_dive_builder_finish(struct plm_dive_builder *builder, struct plm_dive **out);

/* A builder filled with a copy of a dive, for edited dives ("what if") and for cards laid over a log; same file. What
 * was reported on the dive's gaps and end is not reported again. */
PLM_API struct plm_dive_builder *plm_dive_builder_from(const struct plm_dive *dive, const struct plm_rules *rules,
                                                       const struct plm_diag_sink *sink);
/* Takes all samples and settings away, so that edited ones can be added from the start; info, mixes (with their
 * indices), events and plan stay. */
PLM_API void plm_dive_builder_restart(struct plm_dive_builder *builder);
/* Takes samples and events later than time_ms away again; settings in force stay as they are. */
PLM_API void plm_dive_builder_cut(struct plm_dive_builder *builder, int64_t time_ms);

/* Other settings for a dive: asked moment by moment while its samples are laid anew. */
struct plm_relay {
    /* Changes what was recorded (mix: an index of the builder) into what is to be in force at a moment. Returns: OK or
     * an error that is reported. */
    enum plm_status (*at)(void *context, double time_s, struct plm_setting *setting);
    /* The next moment after after_s at which something changes; INFINITY where nothing does. */
    double (*next)(void *context, double after_s);
    void *context;
};
/*
 * Fills a builder that came from this dive with the dive's samples under other settings. A change that falls between
 * two samples gets a sample of its own on the line between them.
 * Returns: OK, or an error that is reported; the builder stays the caller's.
 */
PLM_API enum plm_status plm_dive_builder_relay(struct plm_dive_builder *builder, const struct plm_dive *dive,
                                               const struct plm_relay *relay);

/* Moves all events added so far to other times, as an edited dive needs it: time_ms becomes move(context, time_ms),
 * which never goes back. */
PLM_API void plm_dive_builder_move_events(struct plm_dive_builder *builder,
                                          int64_t (*move)(const void *context, int64_t time_ms), const void *context);

#ifdef __cplusplus
}
#endif

#endif
