"""Fails when reconciling two records of the samples finds other clocks and depths than survey.ini gave to their recorders, or an audit other dives,
divers and records than survey.ini lets dive.

usage: recorders.py PLIMSOLL SAMPLES
What the generator planted is the truth: of a recorder shown = scale * depth + offset, its seconds (1 + drift) true ones, its clock true + offset.
SPDX-License-Identifier: MIT
"""
import configparser
import json
import os
import subprocess
import sys

PLIMSOLL, SAMPLES = (os.path.abspath(path) for path in sys.argv[1:3])
SURVEY = configparser.ConfigParser(interpolation=None)
SURVEY.read(os.path.join(SAMPLES, "survey.ini"), encoding="utf-8")
DAMAGED = "expedition/day-5/quill.uddf"
WRONG = []


def program(*words, expect):
    ran = subprocess.run([PLIMSOLL, *words], cwd=SAMPLES, capture_output=True, check=False)
    if ran.returncode not in expect:
        sys.exit(f"{' '.join(words)}: exit status {ran.returncode}\n{ran.stderr.decode()}")
    return json.loads(ran.stdout)


def near(what, told, expected, tolerance):
    if told is None or abs(told - expected) > tolerance:
        WRONG.append(what)
        print(f"{what}: told {told}, planted {expected:.6g}, tolerance {tolerance}")


def seconds(text):
    """-1:22 or 3:00:15"""
    total = 0
    for part in text.lstrip("-").split(":"):
        total = 60 * total + int(part)
    return -total if text.startswith("-") else total


def recorder(log):
    section = SURVEY["recorder " + log["recorder"]]
    return {"clock_s": seconds(section.get("clock_offset", "0")), "drift": 1e-6 * float(section.get("clock_drift_ppm", 0)),
            "scale": float(section.get("depth_scale", 1)), "offset_m": float(section.get("depth_offset_m", 0)),
            "interval_s": float(section.get("interval_s", 10))}


def logs():
    """The logs of the expedition, neither plans nor cards: name and section."""
    for name in SURVEY.sections():
        if name.startswith("file expedition") and not SURVEY[name]["format"].startswith(("plan", "card")):
            yield name[5:], SURVEY[name]


def pairs():
    """Logs of one dive in one folder, the one with true clock and depths first."""
    found = {}
    for name, log in logs():
        found.setdefault((os.path.dirname(name), log["dive"]), []).append(name)
    return [sorted(names, key=lambda name: "wrist" in name) for names in found.values() if len(names) == 2]


def hold_pair(first, second):
    """a's depth from b's through the true one, (b - offset) / scale; likewise clocks and seconds."""
    a, b = (recorder(SURVEY["file " + name]) for name in (first, second))
    pair = program("reconcile", "--format", "json", first, second, expect=(0, 1, 2))["pairs"][0]
    what = f"{first} and {os.path.basename(second)}"
    scale = a["scale"] / b["scale"]
    offset_m = a["offset_m"] - scale * b["offset_m"]
    drift = (1 + a["drift"]) / (1 + b["drift"]) - 1
    half_s = 0.5 * min(a["interval_s"], b["interval_s"])
    near(f"{what}: same_dive", pair["same_dive"], True, 0)
    # 40 ppm are a fifth of a second in an hour and a half; what sampling tells is a tenth of its step over the dive
    duration_s = pair["overlap_s"]
    near(f"{what}: drift over the dive, s", 1e-6 * pair["clock_drift_ppm"] * duration_s, drift * duration_s, 0.2 * half_s)
    for depth_m in (3, 40):
        near(f"{what}: depth at {depth_m} m", pair["depth_scale"] * depth_m + pair["depth_offset_m"], scale * depth_m + offset_m, 0.05)
    if pair["clock_known"]:
        near(f"{what}: clock_offset_s", pair["clock_offset_s"], a["clock_s"] - b["clock_s"], 1 + half_s)
    return pair["clock_known"]


def deepest_m(dive):
    return max(float(level.split()[0]) for level in SURVEY["dive " + dive]["levels"].split(","))


def hold_audit():
    """Dives, divers and records of each day and of all, by what was dived; the damaged log and what lies in it alone are not there."""
    audit = program("audit", "--format", "json", "expedition", expect=(2,))
    records = [(dive.strip(), name) for name, log in logs() if name != DAMAGED for dive in log["dive"].split(",")]
    by_day = {}
    for dive, _ in records:
        by_day.setdefault(SURVEY["dive " + dive]["start"][:10], []).append(dive)
    near("days", len(audit["days"]), len(by_day), 0)
    for day in audit["days"]:
        dives = by_day.get(day["date"], [])
        near(f"{day['date']}: records", day["records"], len(dives), 0)
        near(f"{day['date']}: dives", day["dives"], len(set(dives)), 0)
        near(f"{day['date']}: divers", day["divers"], len({SURVEY["dive " + dive]["diver"] for dive in dives}), 0)
        # bodies move by some decimetres about their level
        near(f"{day['date']}: deepest_m", day["deepest_m"], max(map(deepest_m, dives)), 0.7)
    near("dives", audit["whole"]["dives"], len({dive for dive, _ in records}), 0)
    near("records", audit["whole"]["records"], len(records), 0)
    near("divers", audit["whole"]["divers"], len({SURVEY["dive " + dive]["diver"] for dive, _ in records}), 0)
    for dive in audit["dives"]:
        if dive["clock_offset_s"] is not None:
            astray = recorder({"recorder": dive["recorder"]})
            near(f"{dive['file']}: clock_offset_s", dive["clock_offset_s"], -astray["clock_s"], 120)


def main():
    timed = [hold_pair(*pair) for pair in pairs()]
    hold_audit()
    print(f"{len(timed)} pairs, {sum(timed)} with clocks, {len(WRONG)} wrong")
    sys.exit(1 if WRONG or len(timed) < 6 or sum(timed) < 2 else 0)


main()
