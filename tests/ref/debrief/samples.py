"""Fails when a figure that the program tells of a sample is not that of the second opinion (model.py, schedule.py), to the digits printed.

usage: samples.py PLIMSOLL SAMPLES
The logs are read by logs.py, so that neither reading nor computing is the program's.
SPDX-License-Identifier: MIT
"""
import json
import os
import subprocess
import sys
import tempfile

import logs
import schedule
from model import BAR_PER_M, SURFACE_BAR, Dive

PLIMSOLL, SAMPLES = (os.path.abspath(path) for path in sys.argv[1:3])
LOGS = ("deep-terrace.csv", "outer-wall.uddf", "lagoon-nitrox.csv", "expedition/day-4/marl.csv", "expedition/day-4/quill.uddf",
        "expedition/day-3/quill.csv")
# All dives of one diver that can be read: day, log, dive within it.
QUILL = (("2031-05-04", "expedition/day-1/quill.csv", 0), ("2031-05-06", "expedition/day-3/quill.csv", 0), ("2031-05-07", "expedition/day-4/quill.uddf", 0),
         ("2031-05-07", "expedition/day-4/quill.uddf", 1))
# REPEX totals of one, two and three days in a row; day 1 was seen second-hand, the others are from memory.
REPEX = (850, 1400, 1860)
WRONG = []


def program(*words, expect=(0, 1)):
    ran = subprocess.run([PLIMSOLL, *words], cwd=SAMPLES, capture_output=True, check=False)
    if ran.returncode not in expect:
        sys.exit(f"{' '.join(words)}: exit status {ran.returncode}\n{ran.stderr.decode()}")
    return json.loads(ran.stdout) if "json" in words else None


def dive_of(log, index=0):
    dive = Dive(logs.read(os.path.join(SAMPLES, log), index))
    plan = plan_of(log)
    if plan:
        dive.bottom_of_m = min(dive.deepest(), max(sample["depth_m"] for sample in logs.read(plan, 0)))
    return dive


def plan_of(log):
    """The plan that the card beside a log names."""
    path = os.path.join(SAMPLES, log)
    card = path.rsplit(".", 1)[0] + ".card"
    if not os.path.exists(card):
        return None
    with open(card, encoding="utf-8") as file:
        named = [line.split("=")[1].strip() for line in file if line.startswith("plan")]
    return os.path.join(os.path.dirname(path), named[0]) if named else None


def near(what, told, expected, tolerance):
    if told is None or abs(told - expected) > tolerance:
        WRONG.append(what)
        print(f"{what}: told {told}, second opinion {expected:.6g}, tolerance {tolerance}")


def same(what, told, expected):
    if told != expected:
        WRONG.append(what)
        print(f"{what}: told {told}, second opinion {expected}")


def hold_profile(log, told, dive):
    profile, times = told["profile"], [sample["time_s"] for sample in dive.samples]
    near(f"{log}: duration_s", profile["duration_s"], times[-1] - times[0], 0.5)
    near(f"{log}: max_depth_m", profile["max_depth_m"], dive.deepest(), 0.0501)
    near(f"{log}: mean_depth_m", profile["mean_depth_m"], dive.mean_depth(), 0.0501)
    same(f"{log}: samples", profile["samples"], len(times))


def hold_loading(log, told, dive):
    """Gradients to 0.1 points, depths of ceilings to 0.1 m; which sample only where no other is as near."""
    loading, (peak_pct, compartment, at) = told["loading"], dive.peak()
    surfacing_pct, surfacing = dive.surfacing_pct()
    near(f"{log}: surfacing_gradient_pct", loading["surfacing_gradient_pct"], surfacing_pct, 0.0501)
    same(f"{log}: surfacing_compartment", loading["surfacing_compartment"], surfacing)
    near(f"{log}: peak_gradient_pct", loading["peak_gradient_pct"], peak_pct, 0.0501)
    near(f"{log}: peak_at_s", loading["peak_at_s"], dive.samples[at]["time_s"], 0.5)
    same(f"{log}: leading_compartment", loading["leading_compartment"], compartment)
    ceilings_m = [(pressure - SURFACE_BAR) / BAR_PER_M for pressure, _ in dive.ceilings()]
    near(f"{log}: deepest_ceiling_m", loading["deepest_ceiling_m"], max(ceilings_m), 0.0502)
    clearances_m = [dive.depth(i) - ceiling_m for i, ceiling_m in enumerate(ceilings_m) if ceiling_m > 0]
    if clearances_m:
        near(f"{log}: min_clearance_m", loading["min_clearance_m"], min(clearances_m), 0.0051)
    else:
        same(f"{log}: min_clearance_m", loading["min_clearance_m"], None)


def hold_decompression(log, told, dive):
    """Stops owed at the end of the bottom, the cost of a minute there, and the least GF low by trying all."""
    deco, at = told["decompression"], dive.bottom_end()
    near(f"{log}: bottom_end_s", deco["bottom_end_s"], dive.samples[at]["time_s"], 0.5)
    mixes = list(dict.fromkeys((sample["o2"], sample["he"]) for sample in dive.samples))
    if dive.samples[at]["loop"] is not None:
        mixes = [(dive.samples[at]["o2"], dive.samples[at]["he"])]
    anchor = dive.ceilings()[at][1]
    tts_s, stops = schedule.way_up(dive.tissues[at], anchor, dive.depth(at), mixes, dive.samples[at]["setpoint"])
    near(f"{log}: tts_s", deco["tts_s"], tts_s, 3)
    near(f"{log}: owed_min", deco["owed_min"], sum(waited_s for _, waited_s in stops) / 60, 0.1)
    owed = {stop["depth_m"]: stop["owed_min"] for stop in deco["stops"] if stop["owed_min"] > 0.05}
    same(f"{log}: stops", sorted(owed), sorted(depth_m for depth_m, waited_s in stops if waited_s > 3.05))
    for depth_m, waited_s in stops:
        near(f"{log}: owed at {depth_m} m", owed.get(depth_m, 0.0), waited_s / 60, 0.06)
    if stops:
        longer_s, _ = schedule.stay_and_up(dive, at, anchor, mixes, 1)
        near(f"{log}: deco_cost_min_per_min", deco["deco_cost_min_per_min"], (longer_s - tts_s) / 60, 0.1)
    hold_achieved(log, deco, dive, stops)


def hold_achieved(log, deco, dive, stops):
    if not stops and max(pressure for pressure, _ in dive.ceilings()) <= SURFACE_BAR:
        same(f"{log}: achieved_none", deco["achieved_none"], "the model asked for no stop")
        same(f"{log}: achieved", (deco["achieved_gf_low_pct"], deco["achieved_gf_high_pct"]), (None, None))
        return
    high_pct = max(1.0, dive.surfacing_pct()[0])
    near(f"{log}: achieved_gf_high_pct", deco["achieved_gf_high_pct"], high_pct, 0.0501)
    low_pct = deco["achieved_gf_low_pct"]
    tried = range(1, 101) if low_pct is None else [low for low in (low_pct - 1, low_pct) if low > 0]
    passing = [low for low in tried if dive.passes(low / 100, high_pct / 100)]
    same(f"{log}: achieved_gf_low_pct passes, and one less does not", passing, [] if low_pct is None else [low_pct])


def hold_oxygen(log, told, dive):
    oxygen, gas = told["oxygen"], told["gas"]
    for key, expected, tolerance in zip(("cns_pct", "cns_day_pct", "otu", "esot"), dive.doses, (0.06, 0.06, 0.51, 0.51)):
        near(f"{log}: {key}", oxygen[key], expected, tolerance)
    near(f"{log}: max_po2_bar", oxygen["max_po2_bar"], dive.po2_high, 0.0051)
    near(f"{log}: min_po2_bar", oxygen["min_po2_bar"], dive.po2_low, 0.0051)
    near(f"{log}: at_1_3_min", oxygen["at_1_3_min"], dive.minutes_at_1_3, 0.0501)
    for band, minutes in zip(oxygen["over"], dive.minutes_over):
        near(f"{log}: minutes over {band['limit_bar']}", band["over_min"], minutes, 0.0501)
    near(f"{log}: max_density_g_l", gas["max_density_g_l"], dive.densest, 0.0051)
    near(f"{log}: max_end_m", gas["max_end_m"], dive.narcotic_m, 0.0501)


def hold_row(log, row, dive):
    """A row of an audit; the same figures by another way through the program."""
    at = dive.bottom_end()
    near(f"audit, {log}: surfacing_gradient_pct", row["surfacing_gradient_pct"], dive.surfacing_pct()[0], 0.0501)
    near(f"audit, {log}: peak_gradient_pct", row["peak_gradient_pct"], dive.peak()[0], 0.0501)
    near(f"audit, {log}: max_depth_m", row["max_depth_m"], dive.deepest(), 0.0501)
    for key, expected, tolerance in zip(("cns_pct", "cns_day_pct", "otu", "esot"), dive.doses, (0.06, 0.06, 0.51, 0.51)):
        near(f"audit, {log}: {key}", row[key], expected, tolerance)
    mixes = list(dict.fromkeys((sample["o2"], sample["he"]) for sample in dive.samples))
    _, stops = schedule.way_up(dive.tissues[at], dive.ceilings()[at][1], dive.depth(at), mixes, None)
    near(f"audit, {log}: owed_min", row["owed_min"], sum(waited_s for _, waited_s in stops) / 60, 0.1)


def hold_audit(dives):
    """What does not begin with what an earlier dive of its file left; and the oxygen of a day with two dives."""
    rows = {(row["file"], row["index"]): row for row in program("audit", "--format", "json", "expedition", expect=(2,))["dives"]}
    for log in LOGS:
        if log.startswith("expedition"):
            hold_row(log, rows[log, 1], dive_of(log))
    for day, log, index in QUILL:
        expected = sum(dive.doses[2] for (other, _, _), dive in zip(QUILL, dives) if other == day)
        near(f"audit, {log} {index + 1}: otu_of_day", rows[log, index + 1]["otu_of_day"], expected, 0.51)


def hold_days(dives):
    """A ledger's days: doses added up, the deepest dive, the time in the water, and the run of days with what REPEX allows over it."""
    with tempfile.TemporaryDirectory(prefix="plimsoll-days-") as folder:
        ledger = os.path.join(folder, "l")
        for log in dict.fromkeys(log for _, log, _ in QUILL):
            program("ledger", "add", "--ledger", ledger, log, expect=(0,))
        days = program("ledger", "show", "--ledger", ledger, "Quill", "--format", "json", expect=(0,))["days"]
    same("days", [day["date"] for day in days], sorted({day for day, _, _ in QUILL}))
    for day, run in zip(days, ((0,), (1,), (1, 2, 3))):
        of_day = [dive for (date, _, _), dive in zip(QUILL, dives) if date == day["date"]]
        same(f"{day['date']}: dives", day["dives"], len(of_day))
        near(f"{day['date']}: cns_day_pct", day["cns_day_pct"], sum(dive.doses[1] for dive in of_day), 0.06)
        near(f"{day['date']}: otu", day["otu"], sum(dive.doses[2] for dive in of_day), 0.06)
        near(f"{day['date']}: esot", day["esot"], sum(dive.doses[3] for dive in of_day), 0.06)
        near(f"{day['date']}: max_depth_m", day["max_depth_m"], max(dive.deepest() for dive in of_day), 0.0501)
        near(f"{day['date']}: runtime_min", day["runtime_min"], sum(dive.samples[-1]["time_s"] for dive in of_day) / 60, 0.0501)
        near(f"{day['date']}: otu_run", day["otu_run"], sum(dives[i].doses[2] for i in run), 0.06)
        near(f"{day['date']}: otu_run_allowed", day["otu_run_allowed"], REPEX[len({QUILL[i][0] for i in run}) - 1], 0)


def main():
    for log in LOGS:
        told = program("debrief", "--format", "json", log)["dives"][0]
        dive = dive_of(log)
        before = len(WRONG)
        for hold in (hold_profile, hold_loading, hold_decompression, hold_oxygen):
            hold(log, told, dive)
        print(f"{log}: surfaced at {dive.surfacing_pct()[0]:.2f} %, {len(WRONG) - before} figures wrong")
    dives = [dive_of(log, index) for _, log, index in QUILL]
    hold_audit(dives)
    hold_days(dives)
    print(f"{len(WRONG)} figures wrong")
    sys.exit(1 if WRONG else 0)


main()
