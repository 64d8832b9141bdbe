"""What the program says a diver carries, against sums of the test's own: tissues and CNS by their half-times from the last row of a trace,
doses added up by hand, REPEX from its table.

usage: carried.py PLIMSOLL SAMPLES GENERATE
Sources: half-times of ZH-L16, Buehlmann 1995 (helium rows from memory); dP/dt = k (Pi - P), solved for constant Pi; CNS half-time 90 min
(second-hand); REPEX totals, Hamilton, Kenyon, Peterson 1988 (days 2 to 5 from memory).
SPDX-License-Identifier: MIT
"""
import csv
import datetime
import io
import os

from rough import SAMPLES, fail, run, work

N2_MIN = (5, 8, 12.5, 18.5, 27, 38.3, 54.3, 77, 109, 146, 187, 239, 305, 390, 498, 635)
HE_MIN = (1.88, 3.02, 4.72, 6.99, 10.21, 14.48, 20.53, 29.11, 41.20, 55.19, 70.69, 90.34, 115.29, 147.42, 188.24, 240.03)
REPEX_TOTAL = (0, 850, 1400, 1860, 2100, 2300)
SURFACE_M = 1.0
SURFACE_HOLD_S = 60
AIR_BAR = (1.01325 - 0.0627) * 0.7902
NIGHTS = ("2031-05-04T20:00:00+11:00", "2031-05-05T08:00:00+11:00", "2031-05-06T23:30:00+11:00", "2031-05-08T07:15:00+11:00")


def rows(text):
    return list(csv.DictReader(io.StringIO(text)))


def moment(text):
    return datetime.datetime.fromisoformat(text)


def decayed(bar, rest_bar, minutes, half_time_min):
    return rest_bar + (bar - rest_bar) * 2 ** (-minutes / half_time_min)


def near(what, got, expected, tolerance):
    if abs(got - expected) > tolerance:
        fail(f"{what}: {got} and not {expected}")


def hold_moment(folder, dives, traces, at):
    """One moment against what the dives before it left."""
    due = rows(run(folder, "ledger", "due", "--ledger", "l", "Tern", "--at", at, "--format", "csv", expect=(0,)).stdout)[0]
    before = [dive for dive in dives if moment(dive["start"]) < moment(at)]
    ends = [moment(dive["start"]) + datetime.timedelta(minutes=float(dive["exact_min"])) for dive in before]
    minutes = (moment(at) - ends[-1]).total_seconds() / 60
    last = traces[before[-1]["log"]]
    for i in range(16):
        near(f"{at}: nitrogen {i + 1}", float(due[f"n2_{i + 1}_bar"]), decayed(float(last[f"n2_{i + 1}_bar"]), AIR_BAR, minutes, N2_MIN[i]), 2e-6)
        near(f"{at}: helium {i + 1}", float(due[f"he_{i + 1}_bar"]), decayed(float(last[f"he_{i + 1}_bar"]), 0, minutes, HE_MIN[i]), 2e-6)
    near(f"{at}: CNS", float(due["cns_pct"]), decayed(float(before[-1]["cns_pct"]), 0, minutes, 90), 0.11)
    day = [dive for dive, end in zip(before, ends) if (moment(at) - end).total_seconds() < 86400]
    near(f"{at}: OTU of 24 h", float(due["otu_24h"]), sum(float(dive["otu"]) for dive in day), 0.06 * max(1, len(day)))
    days = {moment(dive["start"]).date() for dive in before} | {moment(at).date()}
    length = 1
    while moment(at).date() - datetime.timedelta(days=length) in days:
        length += 1
    run_of = [dive for dive in before if (moment(at).date() - moment(dive["start"]).date()).days < length]
    near(f"{at}: days", float(due["otu_run_days"]), length, 0)
    near(f"{at}: OTU of the run", float(due["otu_run"]), sum(float(dive["otu"]) for dive in run_of), 0.06 * max(1, len(run_of)))
    near(f"{at}: allowed", float(due["otu_run_allowed"]), REPEX_TOTAL[length], 0)
    return minutes


def surfaced(table):
    """The row in which the state is kept: the head is no deeper than 1 m, and has come as high as it does in one go
    within a minute. CNS of the whole record is kept."""
    depth, time = ([float(row[key]) for row in table] for key in ("depth_m", "time_s"))
    up = min(len(table) - 1, 1 + max(i for i, m in enumerate(depth) if m > SURFACE_M))
    top = i = up
    while i + 1 < len(table) and depth[i + 1] <= depth[i] and time[i + 1] - time[up] <= SURFACE_HOLD_S:
        i += 1
        top = i if depth[i] < depth[top] else top
    return top


def main():
    logs = {f"day-{day}": os.path.join(SAMPLES, "expedition", f"day-{day}", name)
            for day, name in ((1, "tern-handset.uddf"), (2, "tern-wrist.csv"), (3, "tern-wrist.uddf"), (5, "tern-wrist.csv"))}
    with work() as folder:
        run(folder, "ledger", "add", "--ledger", "l", *logs.values(), expect=(0, 2))
        dives = rows(run(folder, "ledger", "list", "--ledger", "l", "Tern", "--format", "csv", expect=(0,)).stdout)
        traces = {}
        for dive, log in zip(dives, logs.values()):
            # The trace begins with what the ledger carries; that it carries right was held for the dives before.
            table = rows(run(folder, "trace", "--ledger", "l", "--no-schedule", log, expect=(0, 2)).stdout)
            dive["log"] = dive["log"] + dive["start"]
            up = table[surfaced(table)]
            dive["exact_min"] = float(up["time_s"]) / 60
            traces[dive["log"]] = up
        if len(dives) != 4:
            fail(f"{len(dives)} dives")
        for at in NIGHTS:
            print(f"{at}: {hold_moment(folder, dives, traces, at) / 60:.1f} h after the last dive, as by hand")


if __name__ == "__main__":
    main()
