"""An independent look at the field: are the dives what their truth says? Reads the logs with records.py, replays them with the second
opinion of tests/ref/debrief/model.py, and calls nothing of the program or of its library.
SPDX-License-Identifier: MIT
"""
import concurrent.futures
import json
import os
import sys

import records

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "ref", "debrief"))
import model  # noqa: E402

CLEAN_OVER_POINTS = 7.0  # the gradient that a clean dive may be over its line for moments, as recorded; convention
CLEAN_OVER_S = 90  # more than 2 points, in all
REPLAY_EVERY = 4  # of the clean dives one in so many is replayed: Runge-Kutta is slow
STEP_S = 10.0


class Replay:
    """Gradient over its line at each sample, by samples that are what they should be."""

    def __init__(self, samples):
        self.samples, self.tissues, self.anchors, self.over = samples, [], [], []
        tissue, anchor, self.cns = model.saturated(), None, 0.0
        for i, sample in enumerate(samples):
            if i > 0:
                tissue = self._leg(tissue, samples[i - 1], sample)
            rows = model.limits(tissue)
            anchor = model.next_anchor(rows, anchor, model.GF_LOW, model.GF_HIGH, False)
            self.tissues.append(tissue)
            self.anchors.append(anchor)
            self.over.append(self._over(rows, anchor, sample["depth_m"]))

    def _leg(self, tissue, before, after):
        dt_s = after["time_s"] - before["time_s"]
        to_bar = after["loop"] if after["loop"] is not None else before["loop"]
        ends = [model.breathed(s["depth_m"], before["o2"], before["he"], loop)[0]
                for s, loop in ((before, before["loop"]), (after, None if before["loop"] is None else to_bar))]
        self.cns += dt_s / 60 * model.dose_rates(sum(ends) / 2)[0]
        return model.leg(tissue, before["depth_m"], after["depth_m"], dt_s, before["o2"], before["he"], before["loop"],
                         None if before["loop"] is None else to_bar, STEP_S)

    @staticmethod
    def _over(rows, anchor, depth_m):
        p = model.ambient(depth_m)
        share = 0 if anchor is None or anchor <= model.SURFACE_BAR else min(1.0, (p - model.SURFACE_BAR) / (anchor - model.SURFACE_BAR))
        return model.gradient_pct(rows, p)[0] - 100 * (model.GF_HIGH + (model.GF_LOW - model.GF_HIGH) * share)

    def index_at(self, time_s):
        return min(range(len(self.samples)), key=lambda i: abs(self.samples[i]["time_s"] - time_s))

    def wait_s(self, i, stay_m, to_m, tissue=None):
        """[s] at a depth from a sample on until another is free after the way there, at the rates of schedules; and the tissue then."""
        sample, waited_s = self.samples[i], 0.0
        tissue = tissue or self.tissues[i]
        while waited_s < 7200:
            loop = sample["setpoint"] if sample["loop"] is not None else None
            way_s = 60 * abs(stay_m - to_m) / (6 if to_m < 6 else 9)
            there = model.leg(tissue, stay_m, to_m, way_s, sample["o2"], sample["he"], loop, loop, STEP_S)
            if model.is_clear(model.limits(there), model.ambient(to_m), model.GF_LOW, model.GF_HIGH, self.anchors[i]):
                break
            tissue = model.leg(tissue, stay_m, stay_m, STEP_S, sample["o2"], sample["he"], loop, loop, STEP_S)
            waited_s += STEP_S
        return waited_s, tissue

    def owed_s(self, i):
        """[s] of stops from a sample at the surface on, were the diver back at the first of them."""
        stop_m, owed_s, tissue = 0.0, 0.0, self.tissues[i]
        while not model.is_clear(model.limits(tissue), model.ambient(stop_m), model.GF_LOW, model.GF_HIGH, self.anchors[i]):
            stop_m += 3
        while stop_m > 0:
            waited_s, tissue = self.wait_s(i, stop_m, stop_m - 3, tissue)
            owed_s, stop_m = owed_s + waited_s, stop_m - 3
        return owed_s

    def ceiling_m(self, i):
        bar = model.ceiling(model.limits(self.tissues[i]), model.GF_LOW, model.GF_HIGH, self.anchors[i])
        return (bar - model.SURFACE_BAR) / model.BAR_PER_M


class Look:
    """One dive: its truth, its samples without those that cannot be."""

    def __init__(self, folder, truth):
        self.folder, self.truth = folder, truth
        self.all = records.read(folder, truth["log"], truth["card"])
        lies = [line for line in truth["planted"] if not line["kind"]]
        self.samples = [s for s in self.all if not any(
            line["from_s"] < s["time_s"] < line["to_s"] and abs(s["depth_m"] - line["value"]) < 0.2 for line in lies)]
        self._replay = None

    def replay(self):
        if self._replay is None:
            self._replay = Replay(self.samples)
        return self._replay

    def within(self, line, near_s=0.0):
        return [s for s in self.samples if line["from_s"] - near_s <= s["time_s"] <= line["to_s"] + near_s]

    def step_s(self):
        """The longest usual interval of the recorder."""
        return self.truth["nature"]["interval_s"] + self.truth["nature"]["jitter_s"]


def po2(sample):
    return model.breathed(sample["depth_m"], sample["o2"], sample["he"], sample["loop"])[0]


def near(seen, line, slack=0.0):
    return abs(seen - line["value"]) <= line["tolerance"] + slack


def steepest_m_min(look, line):
    """Between two samples some 20 s apart, or neighbours that are further apart."""
    met, steepest = look.within(line, 25), 0.0
    for i, a in enumerate(met):
        for b in met[i + 1:]:
            dt_s = b["time_s"] - a["time_s"]
            if dt_s >= 15:
                steepest = max(steepest, 60 * (a["depth_m"] - b["depth_m"]) / dt_s)
                break
    return steepest


def fast(look, line):
    seen = steepest_m_min(look, line)
    return 0.88 * line["value"] - 1.3 * line["tolerance"] <= seen <= 1.2 * line["value"] + 1.2, seen


def passed_s(samples, first, depth_m):
    """When a depth is passed upward after sample `first`, on a straight line between two samples; None: never."""
    for a, b in zip(samples[first:], samples[first + 1:]):
        if a["depth_m"] >= depth_m > b["depth_m"]:
            return a["time_s"] + (b["time_s"] - a["time_s"]) * (a["depth_m"] - depth_m) / (a["depth_m"] - b["depth_m"])
    return None


def swum(look, line):
    """From 6 or 4 m to the last metre, without a window."""
    first = next(i for i, s in enumerate(look.samples) if s["time_s"] >= line["from_s"] - look.step_s() - 1)
    to_s = passed_s(look.samples, first, 1.0)
    before = [passed_s(look.samples, first, from_m) for from_m in (6.0, 4.0)]
    rates = [60 * (from_m - 1) / (to_s - from_s) for from_m, from_s in zip((6.0, 4.0), before) if from_s is not None]
    return near(max(rates), line, 2), max(rates)


def cut(look, line):
    """At the moment of leaving, so long before the next stop was free."""
    replay = look.replay()
    i = replay.index_at(line["from_s"])
    stay_m = replay.samples[i]["depth_m"]
    stop_m = 3 * round(stay_m / 3 + 0.05)
    above_m = 0 if stop_m <= look.truth["nature"]["last_stop_m"] else stop_m - 3
    seen = replay.wait_s(i, stay_m, above_m)[0] / 60
    return near(seen, line, 0.5), seen


def broken(look, line):
    replay = look.replay()
    met = [i for i, s in enumerate(replay.samples) if line["from_s"] <= s["time_s"] <= line["to_s"]]
    seen = max(replay.ceiling_m(i) - replay.samples[i]["depth_m"] for i in met)
    return near(seen, line, 0.2), seen


def owing(look, line):
    replay = look.replay()
    i = replay.index_at(look.truth["truth"]["surfaced_s"] + look.step_s())
    seen = replay.owed_s(i) / 60
    return near(seen, line, 0.4), seen


def astray(look, line):
    met = [s["loop"] for s in look.samples if line["from_s"] + 200 <= s["time_s"] <= line["to_s"]]
    seen = sum(met) / len(met)
    return near(seen, line), seen


def oxygen_high(look, line):
    seen = max(po2(s) for s in look.within(line, 20))
    return near(seen, line, 0.05), seen


def oxygen_low(look, line):
    seen = min(po2(s) for s in look.within(line, 20) if s["depth_m"] > 0.5)
    return near(seen, line, 0.02), seen


def down_again(look, line):
    met = [s["depth_m"] for s in look.within(line, look.step_s())]
    seen = max(met) - min(met[:len(met) // 2 + 1])
    return near(seen, line, 0.3), seen


def loop_left(look, line):
    met = look.within(line, 400)
    opened = [s["depth_m"] for before, s in zip(met, met[1:]) if before["mode"] == "closed" and s["mode"] == "open"]
    return len(opened) == 1 and near(opened[0], line, 0.5), opened


def cells(look, line):
    met = [s for s in look.within(line) if len(s["cells"]) == 3]
    seen = max(max(s["cells"]) - min(s["cells"]) for s in met)
    return near(seen, line), seen


def gap(look, line):
    pairs = [(a, b) for a, b in zip(look.all, look.all[1:]) if abs(a["time_s"] - line["from_s"]) < 0.1]
    seen = pairs[0][1]["time_s"] - pairs[0][0]["time_s"] if pairs else 0
    return near(seen, line), seen


def lie(look, line):
    """The sample is there, or two of them, and away and back is faster than anybody moves."""
    before, *away, after = [s for s in look.all if line["from_s"] - 0.5 <= s["time_s"] <= line["to_s"] + 0.5]
    if len(away) != (2 if line["fault"] == "spike-two" else 1) or not all(near(s["depth_m"], line, 0.04) for s in away):
        return False, [s["depth_m"] for s in away]
    rates = [60 * abs(a["depth_m"] - b["depth_m"]) / (b["time_s"] - a["time_s"]) for a, b in ((before, away[0]), (away[-1], after))]
    return min(rates) > 90, min(rates)


def planned(look):
    return records.read(look.folder, look.truth["plan"])


def bottom_end_s(samples):
    least_m = model.BOTTOM_FRAC * max(s["depth_m"] for s in samples)
    return max(s["time_s"] for s in samples if s["depth_m"] >= least_m)


def plan_deeper(look, line):
    seen = max(s["depth_m"] for s in look.samples)
    return near(seen, line, 0.2) and seen > max(s["depth_m"] for s in planned(look)) + 1.5, seen


def bottom_min(samples):
    """Minutes from the begin of the descent to the end of the bottom."""
    begin_s = next(s["time_s"] for s in samples if s["depth_m"] > model.SURFACE_M)
    return (bottom_end_s(samples) - begin_s) / 60


def plan_longer(look, line):
    seen = bottom_min(look.samples)
    slack_min = 0.3 + 0.15 * look.truth["truth"]["max_depth_m"] / 7  # the way up from the last level through what still counts as bottom
    return near(seen, line, slack_min) and seen > bottom_min(planned(look)) + 1.2, seen


def plan_mix(look, line):
    deep = max(look.samples, key=lambda s: s["depth_m"])
    meant = max(planned(look), key=lambda s: s["depth_m"])
    return near(deep["o2"], line) and abs(deep["he"] - meant["he"]) > 0.05, deep["o2"]


def two_clocks(look, line):
    """The second record is the same dive, and its start is told with the clock off."""
    other = records.read(look.folder, look.truth["second"])
    seen = max(s["depth_m"] for s in other) - max(s["depth_m"] for s in look.samples)
    return abs(seen) < 0.5 and starts_apart_s(look) is not None and abs(starts_apart_s(look) + line["value"]) < 10, starts_apart_s(look)


def start_s(folder, log):
    """Seconds of the day at which a log says that it began: in UDDF, or in the card beside a table."""
    path = os.path.join(folder, log)
    if log.endswith(".csv"):
        path = path[:-len("csv")] + "card"
    with open(path, encoding="utf-8") as file:
        text = file.read()
    stamp = text.split("<datetime>")[1] if log.endswith(".uddf") else text.split("start = ")[1]
    hours, minutes, seconds = stamp[11:19].split(":")
    return 3600 * int(hours) + 60 * int(minutes) + int(seconds)


def starts_apart_s(look):
    return start_s(look.folder, look.truth["second"]) - start_s(look.folder, look.truth["log"])


LOOKS = {
    "fast-deep": fast, "fast-past-stops": fast, "fast-between-stops": fast, "brisk-between-stops": fast, "brisk-to-surface": fast,
    "fast-to-surface": swum, "stop-cut": cut, "stop-missed": cut, "ceiling-broken": broken, "surfaced-owing-little": owing,
    "surfaced-owing-some": owing, "surfaced-owing-much": owing, "swim-after-cut": owing, "loop-low": astray, "loop-high": astray,
    "mix-too-deep": oxygen_high, "hypoxic-at-surface": oxygen_low, "down-again": down_again, "loop-left": loop_left,
    "plan-deeper": plan_deeper, "plan-longer": plan_longer, "plan-mix": plan_mix, "cell-stuck": cells, "cell-limited": cells,
    "cell-off": cells, "gap-short": gap, "gap-long": gap, "spike-away": lie, "spike-two": lie, "spike-zero": lie, "spike-6553.5": lie,
    "spike-negative": lie, "clock-off": two_clocks,
}


def wrong_of_any(look):
    """What holds of every dive."""
    truth = look.truth["truth"]
    deepest = max(s["depth_m"] for s in look.samples)
    slack_m = 0.9 + 0.02 * look.step_s() * 18 / 60 + look.truth["nature"]["change_m"]
    gaps = any(line["kind"] == "log-gap" for line in look.truth["planted"])
    if abs(deepest - truth["max_depth_m"]) > slack_m and not (gaps and deepest < truth["max_depth_m"]):
        yield f"greatest depth {deepest:.1f} m, {truth['max_depth_m']} in the truth"
    densest = max(model.density(s["depth_m"], s["o2"], s["he"], s["loop"]) for s in look.samples)
    if abs(densest - truth["max_density_g_l"]) > 0.15:
        yield f"density {densest:.2f} g/L, {truth['max_density_g_l']} in the truth"


def narcotic_m(sample):
    n2_bar = (1 - sample["o2"] - sample["he"]) * model.ambient(sample["depth_m"])
    return (n2_bar / 0.79 - model.SURFACE_BAR) / model.BAR_PER_M


def wrong_of_open(look):
    """On open circuit oxygen and narcosis follow from mix and depth alone."""
    truth = look.truth["truth"]
    seen_bar, seen_m = max(po2(s) for s in look.samples), max(narcotic_m(s) for s in look.samples)
    if abs(seen_bar - truth["max_po2_bar"]) > 0.1:
        yield f"oxygen up to {seen_bar:.2f} bar, {truth['max_po2_bar']} in the truth"
    if abs(seen_m - max(0, truth["max_narcotic_m"])) > 1.5:
        yield f"narcotic as air at {seen_m:.1f} m, {truth['max_narcotic_m']} in the truth"


def wrong_of_clean(look):
    """A clean dive stays by its line but for moments; and its oxygen clock is what the truth says."""
    replay = look.replay()
    worst = max(replay.over)
    over_s = sum(b["time_s"] - a["time_s"] for a, b, over in zip(look.samples, look.samples[1:], replay.over) if over > 2)
    if worst > CLEAN_OVER_POINTS or over_s > CLEAN_OVER_S:
        yield f"{worst:.1f} points over its line, {over_s:.0f} s more than 2"
    if abs(max(0, worst) - max(0, look.truth["truth"]["gradient_over_points"])) > 4:
        yield f"{worst:.1f} points over its line, {look.truth['truth']['gradient_over_points']} in the truth"
    cns = look.truth["truth"]["cns_pct"]
    if abs(replay.cns - cns) > 1 + 0.05 * cns:
        yield f"oxygen clock {replay.cns:.1f} %, {cns} in the truth"


def wrong_of(folder, truth, number):
    look = Look(folder, truth)
    yield from wrong_of_any(look)
    if all(s["mode"] == "open" for s in look.samples):
        yield from wrong_of_open(look)
    for line in truth["planted"]:
        right, seen = LOOKS[line["fault"]](look, line)
        if not right:
            yield f"{line['fault']}: {seen} seen, {line['value']} {line['unit']} within {line['tolerance']} in the truth"
    if not truth["planted"] and number % REPLAY_EVERY == 0:
        yield from wrong_of_clean(look)


def truths_in(folder):
    for name in sorted(os.listdir(folder)):
        if name.endswith(".truth.json"):
            with open(os.path.join(folder, name), encoding="utf-8") as file:
                yield json.load(file)


def wrong_lines(folder, truth, number):
    return [f"{truth['name']}: {wrong}" for wrong in wrong_of(folder, truth, number)]


def wrong_in(folder, workers=2):
    with concurrent.futures.ProcessPoolExecutor(workers) as pool:
        told = [pool.submit(wrong_lines, folder, truth, number) for number, truth in enumerate(truths_in(folder))]
        return [line for future in told for line in future.result()]


if __name__ == "__main__":
    for said in wrong_in(sys.argv[1]):
        print(said)
