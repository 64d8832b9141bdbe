/*
 * What references name: mixes by id or by name, and the things of other definitions.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_IMPORT_UDDF_REFERENCES_H
#define PLM_IMPORT_UDDF_REFERENCES_H

#include "import/uddf/state.h"

/* The thing of an id, of one kind or of any; NULL where there is none. */
const struct plmi_uddf_thing *plmi_uddf_thing_find(const struct plmi_reader *reader, const char *id, bool any_kind,
                                                   enum plmi_uddf_kind kind);
/* Index of the mix that a reference names, by id, or by a name that only one has (reported); NONE: reported. */
uint32_t plmi_uddf_mix_find(struct plmi_reader *reader, const char *ref, long line, long column);
/* Index of the mix of this id alone, nothing reported; NONE: there is none, or there are two. */
uint32_t plmi_uddf_mix_of_id(const struct plmi_reader *reader, const char *id);
/* The mix of that index in a track's builder; false where it cannot be used (reported). */
bool plmi_uddf_mix_use(struct plmi_reader *reader, struct plmi_uddf_track *track, uint32_t mix, uint32_t *index);

#endif
