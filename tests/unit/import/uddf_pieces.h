/*
 * Pieces of UDDF to put files together from, and what the tests of its reader ask of the dives that were read.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_UNIT_IMPORT_UDDF_PIECES_H
#define PLM_UNIT_IMPORT_UDDF_PIECES_H

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "base/text.h"
#include "unit/reading.h"

#define MIXES                                                                        \
    "<gasdefinitions><mix id='air'><name>air</name><o2>0.21</o2><n2>0.79</n2></mix>" \
    "<mix id='tx'><name>bottom</name><o2>0.18</o2><he>0.45</he></mix><mix "          \
    "id='d50'><name>EAN50</name><o2>0.5</o2><n2>0.5</n2></mix></gasdefinitions>"
#define GROUP(dives) "<profiledata><repetitiongroup id='g'>" dives "</repetitiongroup></profiledata>"
#define INFO                                                                                      \
    "<informationbeforedive><surfaceintervalbeforedive><infinity/></surfaceintervalbeforedive></" \
    "informationbeforedive>"
#define DIVE(points)          "<dive id='d'>" INFO "<samples>" points "</samples></dive>"
#define FILE_OF(inside)       "<?xml version='1.0'?><uddf version='3.2.0'>" inside "</uddf>"
#define WP(time, depth, more) "<waypoint><depth>" depth "</depth><divetime>" time "</divetime>" more "</waypoint>"
#define START                 WP("0", "0", "<divemode type='opencircuit'/><switchmix ref='air'/>")
#define CLOSED                WP("0", "0", "<divemode type='closedcircuit'/><switchmix ref='tx'/>")
#define END                   WP("600", "0", "")
/* A whole file of one dive: the points between start and end. */
#define OPEN_DIVE(points) FILE_OF(MIXES GROUP(DIVE(START points END)))
#define LOOP_DIVE(points) FILE_OF(MIXES GROUP(DIVE(CLOSED points END)))

static struct reading got;

static inline void begin(void)
{
    reading_init(&got);
}

static inline void end(void)
{
    reading_free(&got);
}

static inline void read_text(const char *text, int dives)
{
    reading_free(&got);
    reading_text(&got, text);
    ck_assert_msg(got.count == dives, "%d dives, %s: %s", got.count, plm_status_text(got.status), got.told.lines[0]);
    ck_assert_int_eq(got.status, dives > 0 ? PLM_STATUS_END : PLM_STATUS_INPUT);
}

static inline const struct plm_sample *samples(size_t want)
{
    size_t count;
    const struct plm_sample *all = plm_dive_samples(got.dives[0], &count);
    ck_assert_msg(count == want, "%zu samples", count);
    return all;
}

static inline const struct plm_setting *setting(size_t sample)
{
    size_t count;
    const struct plm_sample *all = plm_dive_samples(got.dives[0], &count);
    return &plm_dive_settings(got.dives[0], &count)[all[sample].setting];
}

static inline const struct plm_dive_mix *mix(size_t sample)
{
    size_t count;
    return &plm_dive_mixes(got.dives[0], &count)[setting(sample)->mix];
}

static inline const struct plm_dive_info *info(int dive)
{
    return plm_dive_info_get(got.dives[dive]);
}

#define TOLD(text) ck_assert_msg(diag_list_has(&got.told, text), "not told: %s; but %s", text, got.told.lines[0])

#endif
