/*
 * Words for mixes and modes, in the terms of the trade.
 * Must not compute pressures.
 * SPDX-License-Identifier: MIT
 */
#include <assert.h>
#include <math.h>
#include <stdio.h>

#include <plimsoll/gas.h>

const char *plm_mode_text(enum plm_mode mode)
{
    static const char *const text[] = {
        [PLM_MODE_OPEN] = "open",
        [PLM_MODE_CLOSED] = "closed",
        [PLM_MODE_SEMICLOSED] = "semiclosed",
    };
    int known = (unsigned)mode < sizeof text / sizeof text[0];
    return known ? text[mode] : "unknown";
}

/* Whole percent of a fraction; 0 for what is no fraction. */
static int whole_pct(double frac)
{
    return frac >= 0.0 && frac <= 1.0 ? (int)lround(frac * 100.0) : 0;
}

char *plm_mix_name(const struct plm_mix *mix, char *buffer, size_t size)
{
    assert(size > 0);
    int o2_pct = whole_pct(mix->o2_frac);
    int he_pct = whole_pct(mix->he_frac);
    if (he_pct > 0) {
        snprintf(buffer, size, "%d/%d", o2_pct, he_pct);
    } else if (mix->o2_frac >= 0.205 && mix->o2_frac <= 0.215) {
        snprintf(buffer, size, "air");
    } else if (o2_pct == 100) {
        snprintf(buffer, size, "oxygen");
    } else {
        snprintf(buffer, size, "nitrox %d", o2_pct);
    }
    return buffer;
}
