"""A second opinion on a dive, written apart from the program: tensions by Runge-Kutta in steps of seconds, ceilings by halving, doses by sums.
Slow and plain; knows what plimsoll-model(7) defines and calls nothing of the library.

Sources: half-times, a and b of ZH-L16C, A. A. Buehlmann, Tauchmedizin, 1995 and 2002 (row 1b; nitrogen a and helium rows from memory). NOAA limits
of oxygen, NOAA Diving Manual, table 15-1. OTU by the 5/6 power (Hamilton, Kenyon, Peterson 1988); ESOT t p^2.285 (Risberg and van Ooij 2022, from
memory). Densities 1.428, 1.251, 0.178 g/L at 0 C and 1 atm (Anthony and Mitchell 2016, from memory). Water vapour 0.0627 bar: 47 mmHg at 37 C.
SPDX-License-Identifier: MIT
"""
import math

N2_MIN = (5, 8, 12.5, 18.5, 27, 38.3, 54.3, 77, 109, 146, 187, 239, 305, 390, 498, 635)
N2_A = (1.1696, 1.0, 0.8618, 0.7562, 0.62, 0.5043, 0.441, 0.4, 0.375, 0.35, 0.3295, 0.3065, 0.2835, 0.261, 0.248, 0.2327)
N2_B = (0.5578, 0.6514, 0.7222, 0.7825, 0.8126, 0.8434, 0.8693, 0.891, 0.9092, 0.9222, 0.9319, 0.9403, 0.9477, 0.9544, 0.9602, 0.9653)
HE_MIN = (1.88, 3.02, 4.72, 6.99, 10.21, 14.48, 20.53, 29.11, 41.2, 55.19, 70.69, 90.34, 115.29, 147.42, 188.24, 240.03)
HE_A = (1.6189, 1.383, 1.1919, 1.0458, 0.922, 0.8205, 0.7305, 0.6502, 0.595, 0.5545, 0.5333, 0.5189, 0.5181, 0.5176, 0.5172, 0.5119)
HE_B = (0.477, 0.5747, 0.6527, 0.7223, 0.7582, 0.7957, 0.8279, 0.8553, 0.8757, 0.8903, 0.8997, 0.9073, 0.9122, 0.9171, 0.9217, 0.9267)
NOAA_BAR = (0.5, 0.6, 0.7, 0.8, 0.9, 1.0, 1.1, 1.2, 1.3, 1.4, 1.5, 1.6)
NOAA_MIN = (900, 720, 570, 450, 360, 300, 240, 210, 180, 150, 120, 45)
NOAA_DAY_MIN = (900, 720, 570, 450, 360, 300, 270, 240, 210, 180, 180, 150)
BANDS_BAR = (1.0, 1.2, 1.3, 1.4, 1.5, 1.6)

SURFACE_BAR, BAR_PER_M, VAPOUR_BAR, AIR_N2 = 1.01325, 1019.7162 * 9.80665 / 100000, 0.0627, 0.7902
GF_LOW, GF_HIGH = 0.30, 0.70
SURFACE_M, BOTTOM_FRAC, LEAVING_M_MIN, RATE_WINDOW_S = 1.0, 0.85, 2.0, 20.0
N2_K = [math.log(2) / (60 * t) for t in N2_MIN]
HE_K = [math.log(2) / (60 * t) for t in HE_MIN]


def ambient(depth_m):
    return SURFACE_BAR + depth_m * BAR_PER_M


def breathed(depth_m, o2, he, loop_bar):
    """Oxygen, and nitrogen and helium in the lung. loop_bar None: open circuit."""
    p = ambient(depth_m)
    if loop_bar is None:
        return o2 * p, (1 - o2 - he) * (p - VAPOUR_BAR), he * (p - VAPOUR_BAR)
    oxygen = min(loop_bar, p)
    inert = max(0.0, p - VAPOUR_BAR - oxygen)
    return oxygen, inert * (1 - o2 - he) / (1 - o2), inert * he / (1 - o2)


def density(depth_m, o2, he, loop_bar):
    p = ambient(depth_m)
    oxygen = o2 * p if loop_bar is None else min(loop_bar, p)
    share = (p - oxygen) / (1 - o2) if o2 < 1 else 0
    return (1.428 * oxygen + 1.251 * share * (1 - o2 - he) + 0.178 * share * he) / 1.01325


def saturated():
    return [(SURFACE_BAR - VAPOUR_BAR) * AIR_N2] * 16, [0.0] * 16


def runge_kutta(tension, k, h_s, start, middle, end):
    """One step of dP/dt = k (I - P) for each compartment, the inspired pressure running from start over middle to end."""
    out = []
    for p, rate in zip(tension, k):
        s1 = rate * (start - p)
        s2 = rate * (middle - p - 0.5 * h_s * s1)
        s3 = rate * (middle - p - 0.5 * h_s * s2)
        s4 = rate * (end - p - h_s * s3)
        out.append(p + h_s / 6 * (s1 + 2 * s2 + 2 * s3 + s4))
    return out


def leg(tissue, from_m, to_m, dt_s, o2, he, from_bar, to_bar, step_s=2.5):
    """A straight leg, oxygen of the loop running as straight; from_bar None: open circuit."""
    n2, helium = tissue
    parts = max(1, math.ceil(dt_s / step_s))
    for i in range(parts):
        lungs = []
        for x in (i, i + 0.5, i + 1):
            loop = None if from_bar is None else from_bar + (to_bar - from_bar) * x / parts
            lungs.append(breathed(from_m + (to_m - from_m) * x / parts, o2, he, loop))
        n2 = runge_kutta(n2, N2_K, dt_s / parts, *(lung[1] for lung in lungs))
        helium = runge_kutta(helium, HE_K, dt_s / parts, *(lung[2] for lung in lungs))
    return n2, helium


def limits(tissue):
    """Tension, a and b of each compartment."""
    rows = []
    for i, (n2, helium) in enumerate(zip(*tissue)):
        total = n2 + helium
        rows.append((total, (N2_A[i] * n2 + HE_A[i] * helium) / total, (N2_B[i] * n2 + HE_B[i] * helium) / total))
    return rows


def gradient_pct(rows, p):
    """The largest share of the way from ambient pressure to the M-value, and its compartment."""
    return max(((100 * (total - p) / (a + p / b - p)), i + 1) for i, (total, a, b) in enumerate(rows))


def low_ceiling(rows, low):
    """The deepest ceiling of a constant GF, where the tension is P + low (a + P / b - P)."""
    return max((total - low * a) / (1 - low + low / b) for total, a, b in rows)


def is_clear(rows, p, low, high, anchor):
    gf = high if anchor is None else high + (low - high) * min(1.0, (p - SURFACE_BAR) / (anchor - SURFACE_BAR))
    return all(total <= p + gf * (a + p / b - p) + 1e-12 for total, a, b in rows)


def ceiling(rows, low, high, anchor):
    """The least pressure from the surface down at which all compartments are clear at once: by half metres, then by halving."""
    p = SURFACE_BAR
    while not is_clear(rows, p, low, high, anchor):
        p += 0.05
    if p <= SURFACE_BAR:
        return SURFACE_BAR
    over = p - 0.05
    while p - over > 1e-6:
        middle = 0.5 * (over + p)
        over, p = (over, middle) if is_clear(rows, middle, low, high, anchor) else (middle, p)
    return p


def next_anchor(rows, anchor, low, high, on_surface):
    deepest = low_ceiling(rows, low)
    if deepest > (SURFACE_BAR if anchor is None else anchor):
        anchor = deepest
    return None if on_surface and is_clear(rows, SURFACE_BAR, low, high, None) else anchor


def noaa_limit_min(po2_bar, column):
    for i in range(1, len(NOAA_BAR)):
        if po2_bar <= NOAA_BAR[i]:
            return column[i - 1] + (column[i] - column[i - 1]) * (po2_bar - NOAA_BAR[i - 1]) / (NOAA_BAR[i] - NOAA_BAR[i - 1])
    return column[-1]


def dose_rates(po2_bar):
    """A minute's percent of single exposure and of 24 h, OTU, ESOT."""
    above = po2_bar > 0.5
    return (100 / noaa_limit_min(po2_bar, NOAA_MIN) if above else 0, 100 / noaa_limit_min(po2_bar, NOAA_DAY_MIN) if above else 0,
            ((po2_bar - 0.5) / 0.5) ** (5 / 6) if above else 0, po2_bar ** 2.285)


def share_above(start, end, limit):
    """Of a straight line from start to end, the share above a limit."""
    low, high = min(start, end), max(start, end)
    if high <= limit:
        return 0.0
    return 1.0 if low >= limit else (high - limit) / (high - low)


class Dive:
    """A replay of samples {time_s, depth_m, o2, he, loop}; loop None: open circuit. Settings hold until the next sample."""

    def __init__(self, samples):
        self.bottom_of_m = None  # the lesser of the greatest depths of dive and plan, where there is a plan
        self.samples = samples
        self.tissues, self.rows = [saturated()], []
        self.doses = [0.0] * 4
        self.minutes_over = [0.0] * len(BANDS_BAR)
        self.minutes_at_1_3 = 0.0
        self.densest, self.po2_low, self.po2_high, self.narcotic_m = 0.0, 99.0, 0.0, 0.0
        for i, sample in enumerate(samples):
            following = samples[min(i + 1, len(samples) - 1)]
            self._breathe(sample, following)
            if i + 1 < len(samples):
                to_bar = None if sample["loop"] is None else following["loop"] if following["loop"] is not None else sample["loop"]
                self.tissues.append(leg(self.tissues[-1], sample["depth_m"], following["depth_m"], following["time_s"] - sample["time_s"],
                                        sample["o2"], sample["he"], sample["loop"], to_bar))
        self.rows = [limits(tissue) for tissue in self.tissues]

    def _breathe(self, sample, following):
        """Extremes at both ends of the leg to the next sample, doses by the middle of each second of it."""
        dt_s = following["time_s"] - sample["time_s"]
        parts, ends = max(1, round(dt_s)), []
        for x in [0, 1] + [(k + 0.5) / parts for k in range(parts)]:
            depth_m = sample["depth_m"] + (following["depth_m"] - sample["depth_m"]) * x
            loop = sample["loop"]
            if loop is not None and following["loop"] is not None:
                loop += (following["loop"] - loop) * x
            po2 = breathed(depth_m, sample["o2"], sample["he"], loop)[0]
            if x in (0, 1):
                ends.append(po2)
                self.po2_low, self.po2_high = min(self.po2_low, po2), max(self.po2_high, po2)
                self.densest = max(self.densest, density(depth_m, sample["o2"], sample["he"], loop))
                continue
            minutes = dt_s / parts / 60
            self.doses = [sum_ + minutes * rate for sum_, rate in zip(self.doses, dose_rates(po2))]
        self.minutes_over = [sum_ + dt_s / 60 * share_above(*ends, band) for sum_, band in zip(self.minutes_over, BANDS_BAR)]
        self.minutes_at_1_3 += dt_s / 60 * (share_above(*ends, 1.25) - share_above(*ends, 1.35))
        p, po2 = ambient(sample["depth_m"]), breathed(sample["depth_m"], sample["o2"], sample["he"], sample["loop"])[0]
        inert_bar = p - po2 if sample["o2"] < 1 else 0
        n2_bar = inert_bar * (1 - sample["o2"] - sample["he"]) / (1 - sample["o2"]) if inert_bar else 0
        self.narcotic_m = max(self.narcotic_m, (n2_bar / 0.79 - SURFACE_BAR) / BAR_PER_M)

    def depth(self, i):
        return self.samples[i]["depth_m"]

    def deepest(self):
        return max(sample["depth_m"] for sample in self.samples)

    def bottom(self):
        """The samples within the share of the greatest depth that counts as bottom."""
        least_m = BOTTOM_FRAC * (self.bottom_of_m or self.deepest())
        return [i for i in range(len(self.samples)) if self.depth(i) >= least_m]

    def rate_m_min(self, i):
        """Least squares over the 20 s about a sample, as many within the record; the sample before is taken in where that is poor."""
        times = [sample["time_s"] for sample in self.samples]
        begin_s = max(times[0], min(times[i] - RATE_WINDOW_S / 2, times[-1] - RATE_WINDOW_S))
        met = [k for k in range(max(0, i - 60), min(len(times), i + 61)) if begin_s <= times[k] <= begin_s + RATE_WINDOW_S]
        if times[met[-1]] - times[met[0]] < RATE_WINDOW_S / 2:
            met = [met[0] - 1] + met if met[0] > 0 else met + [met[-1] + 1]
        mean_s, mean_m = sum(times[k] for k in met) / len(met), sum(self.depth(k) for k in met) / len(met)
        return -60 * (sum((times[k] - mean_s) * (self.depth(k) - mean_m) for k in met) / sum((times[k] - mean_s)**2 for k in met))

    def bottom_end(self):
        """Where the ascent sets in that passes the depth of the bottom for good."""
        last = at = self.bottom()[-1]
        if last + 1 < len(self.samples) and self.rate_m_min(last + 1) > LEAVING_M_MIN:
            while at > 0 and self.rate_m_min(at) > LEAVING_M_MIN:
                at -= 1
            while at < last and 60 * (self.depth(at) - self.depth(at + 1)) <= LEAVING_M_MIN * (
                    self.samples[at + 1]["time_s"] - self.samples[at]["time_s"]):
                at += 1
        return at

    def surfaced(self):
        """Where the head comes to the surface for good, and no further up."""
        i, bottom_end = len(self.samples), self.bottom_end()
        while i > bottom_end + 1 and self.depth(i - 1) <= SURFACE_M:
            i -= 1
        while i + 1 < len(self.samples) and self.depth(i + 1) < self.depth(i):
            i += 1
        return min(i, len(self.samples) - 1)

    def surfacing_pct(self):
        return gradient_pct(self.rows[self.surfaced()], SURFACE_BAR)

    def peak(self):
        """Gradient, compartment and sample where the dive was nearest to its M-values."""
        found = [gradient_pct(rows, ambient(self.depth(i))) for i, rows in enumerate(self.rows)]
        at = max(range(len(found)), key=lambda i: found[i][0])
        return found[at][0], found[at][1], at

    def mean_depth(self):
        first = self.bottom()[0]
        while first > 0 and self.depth(first) >= SURFACE_M:
            first -= 1
        last = self.surfaced()
        area = sum(0.5 * (self.depth(i) + self.depth(i + 1)) * (self.samples[i + 1]["time_s"] - self.samples[i]["time_s"]) for i in range(first, last))
        return area / (self.samples[last]["time_s"] - self.samples[first]["time_s"])

    def ceilings(self, low=GF_LOW, high=GF_HIGH):
        """[bar] at each sample, and the anchor there."""
        anchor, found = None, []
        for i, rows in enumerate(self.rows):
            anchor = next_anchor(rows, anchor, low, high, self.depth(i) < SURFACE_M)
            found.append((ceiling(rows, low, high, anchor), anchor))
        return found

    def passes(self, low, high):
        """Whether no ceiling by these factors is exceeded by more than a millimetre of water."""
        anchor = None
        for i, rows in enumerate(self.rows):
            anchor = next_anchor(rows, anchor, low, high, self.depth(i) < SURFACE_M)
            reached = ambient(self.depth(i)) + 1e-4
            if not is_clear(rows, reached, low, high, anchor) and ceiling(rows, low, high, anchor) > reached:
                return False
        return True
