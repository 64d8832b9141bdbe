"""The way up from a state, found by trying: wait at a stop by twenty seconds, then by one, then by a tenth, until the next depth is allowed.
Written apart from the program by the definitions of plimsoll-model(7), SCHEDULE.
SPDX-License-Identifier: MIT
"""
import math

from model import BAR_PER_M, GF_HIGH, GF_LOW, SURFACE_BAR, ambient, density, is_clear, leg, limits, low_ceiling

RATE_M_S, SHALLOW_M_S, SHALLOW_M = 9 / 60, 6 / 60, 6.0  # from 6 m up the slower one; 6 m is one of the stops
STEP_M, PO2_MAX_BAR, DENSITY_MAX_G_L = 3.0, 1.6 + 0.02, 6.2


def rate_m_s(depth_m):
    """Of a way up that begins at a depth."""
    return SHALLOW_M_S if depth_m <= SHALLOW_M + 1e-6 else RATE_M_S


def above(depth_m):
    """The next stop, or the surface."""
    return max(0.0, (math.ceil(depth_m / STEP_M - 1e-6) - 1) * STEP_M)


def best(mixes, depth_m):
    """The richest mix within its limits of oxygen and density; where none keeps both, of oxygen alone; else the leanest."""
    rich = [mix for mix in mixes if mix[0] * ambient(depth_m) <= PO2_MAX_BAR]
    light = [mix for mix in rich if density(depth_m, *mix, None) <= DENSITY_MAX_G_L]
    return max(light or rich, key=lambda mix: mix[0]) if rich else min(mixes, key=lambda mix: mix[0])


def deeper(anchor, tissue):
    return max(anchor, low_ceiling(limits(tissue), GF_LOW))


def gone_up(tissue, anchor, depth_m, to_m, mix, loop):
    """Tissue and anchor at the end of the way, in parts so that the anchor is met within."""
    parts = max(1, round((depth_m - to_m) / 0.75))
    for i in range(parts):
        start_m, end_m = (depth_m + (to_m - depth_m) * x / parts for x in (i, i + 1))
        tissue = leg(tissue, start_m, end_m, (start_m - end_m) / rate_m_s(depth_m), *mix, loop, loop, 2.5)
        anchor = deeper(anchor, tissue)
    return tissue, anchor


def allowed(tissue, anchor, to_m):
    return is_clear(limits(tissue), ambient(to_m), GF_LOW, GF_HIGH, anchor if anchor > SURFACE_BAR else None)


def wait(tissue, anchor, depth_m, to_m, mix, loop):
    """Until the next depth is allowed on arrival. Returns: seconds, tissue, anchor."""
    waited_s = 0.0
    for step_s in (20.0, 1.0, 0.1):
        while True:
            if allowed(*gone_up(tissue, anchor, depth_m, to_m, mix, loop), to_m):
                if waited_s == 0 or step_s == 0.1:
                    return waited_s, tissue, anchor
                waited_s, tissue, anchor = before
                break
            before = waited_s, tissue, anchor
            tissue = leg(tissue, depth_m, depth_m, step_s, *mix, loop, loop, 10.0)
            anchor = deeper(anchor, tissue)
            waited_s += step_s


def way_up(tissue, anchor, depth_m, mixes, loop):
    """Seconds to the surface, and [depth, seconds] of each stop. loop None: open circuit on the best of the mixes."""
    tts_s, stops = 0.0, []
    anchor = deeper(SURFACE_BAR if anchor is None else anchor, tissue)
    while depth_m > 0:
        mix, to_m = mixes[0] if loop is not None else best(mixes, depth_m), above(depth_m)
        waited_s, tissue, anchor = wait(tissue, anchor, depth_m, to_m, mix, loop)
        if waited_s > 0:
            stops.append((depth_m, waited_s))
        tissue, anchor = gone_up(tissue, anchor, depth_m, to_m, mix, loop)
        tts_s += waited_s + (depth_m - to_m) / rate_m_s(depth_m)
        depth_m = to_m
    return tts_s, stops


def stay_and_up(dive, i, anchor, mixes, minutes):
    """The way up after some more minutes at sample i, kept as it is there."""
    sample = dive.samples[i]
    tissue = leg(dive.tissues[i], sample["depth_m"], sample["depth_m"], 60.0 * minutes, sample["o2"], sample["he"], sample["setpoint"], sample["setpoint"])
    start = max(anchor or SURFACE_BAR, low_ceiling(limits(tissue), GF_LOW))
    return way_up(tissue, start, sample["depth_m"], mixes, sample["setpoint"])


assert abs(ambient(10) - SURFACE_BAR - 10 * BAR_PER_M) < 1e-12
