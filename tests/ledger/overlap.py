"""A record that begins long before its dive, while the diver was still in the dive before: order, overlap and what is carried go by the times
in the water. In the ledger in either order of adding, and within one file.

usage: overlap.py PLIMSOLL SAMPLES GENERATE
Sources: CNS half-time 90 min (second-hand); half-times of nitrogen in ZH-L16, Buehlmann 1995; dP/dt = k (Pi - P), solved for constant Pi.
SPDX-License-Identifier: MIT
"""
import csv
import io
import itertools
import os

from carried import AIR_BAR, N2_MIN, decayed, near
from rough import fail, figures, run, work

# Dive 1 is in the water from 09:00 to 09:41. Dive 2 goes under water at 11:00; its recorder was switched on at 08:30, at 09:20, or then.
FIRST = ("09:00:00", ((0, 0), (90, 36), (1500, 36), (1800, 6), (2400, 6), (2460, 0), (3600, 0)))
DIVED = ((0, 0), (90, 30), (1200, 30), (1500, 5), (1800, 5), (1860, 0))
WAITS_S = {"08:30:00": 9000, "09:20:00": 6000}
TRIMMED = ("11:00:00", DIVED)
APART_MIN = 79   # from 09:41 to 11:00


def dive_text(dive):
    clock, points = dive
    mix = '<switchmix ref="n"/>'
    waypoints = "".join(f"<waypoint><depth>{depth_m}</depth><divetime>{time_s}</divetime>{mix if time_s == 0 else ''}</waypoint>"
                        for time_s, depth_m in points)
    return f"<dive><informationbeforedive><datetime>2031-05-06T{clock}+11:00</datetime></informationbeforedive><samples>{waypoints}</samples></dive>"


def write_log(folder, name, *dives):
    with open(os.path.join(folder, name), "w", encoding="utf-8") as file:
        file.write('<uddf version="3.2.0"><gasdefinitions><mix id="n"><o2>0.32</o2><he>0</he></mix></gasdefinitions><profiledata><repetitiongroup>'
                   + "".join(dive_text(dive) for dive in dives) + "</repetitiongroup></profiledata></uddf>")


def rows(text):
    return list(csv.DictReader(io.StringIO(text)))


def add(folder, ledger, *names):
    for name in names:
        run(folder, "ledger", "add", "--ledger", ledger, "--diver", "Tern", name, expect=(0, 2))
    run(folder, "ledger", "check", "--recompute", "--ledger", ledger, expect=(0,))
    return rows(run(folder, "ledger", "list", "--ledger", ledger, "--format", "csv", expect=(0,)).stdout)


def hold_second(what, dive, alone, expected_pct):
    near(f"{what}: CNS", float(dive["cns_pct"]), expected_pct, 0.11)
    near(f"{what}: minutes at the surface", float(dive["surface_interval_min"]), APART_MIN, 0.06)
    if not float(dive["surfacing_gradient_pct"]) > float(alone["surfacing_gradient_pct"]) + 1:
        fail(f"{what}: the gradient on surfacing shows nothing carried: {dive['surfacing_gradient_pct']}")


def hold_wait(folder, clock, trimmed, first):
    wait_s = WAITS_S[clock]
    second = (clock, ((0, 0), *((time_s + wait_s, depth_m) for time_s, depth_m in DIVED)))
    write_log(folder, "second.uddf", second)
    write_log(folder, "both.uddf", FIRST, second)
    alone = add(folder, "alone" + clock, "second.uddf")[0]
    expected_pct = decayed(float(first["cns_pct"]), 0, APART_MIN, 90) + float(alone["cns_pct"])
    found = []
    for order in itertools.permutations(("first.uddf", "second.uddf")):
        ledger = clock + order[0]
        dive = add(folder, ledger, *order)[1]
        hold_second(" then ".join(order), dive, alone, expected_pct)
        near("gradient on surfacing", float(dive["surfacing_gradient_pct"]), float(trimmed["surfacing_gradient_pct"]), 0.11)
        found.append(figures(os.path.join(folder, ledger)))
    if found[0] != found[1]:
        fail(f"{clock}: the order of adding shows")
    hold_second("both in one file", add(folder, "both" + clock, "both.uddf")[1], alone, expected_pct)
    # On going under water the tensions are those that dive 1 left, 79 min at the surface later; in the ledger and in the file alike.
    left = [row for row in rows(run(folder, "trace", "--no-schedule", "first.uddf", expect=(0, 2)).stdout) if float(row["time_s"]) == 2460][-1]
    for arguments in (("--ledger", ledger, "--diver", "Tern", "second.uddf"), ("--dive", "2", "both.uddf")):
        down = [row for row in rows(run(folder, "trace", "--no-schedule", *arguments, expect=(0, 2)).stdout) if float(row["time_s"]) == wait_s][-1]
        for i, half_time_min in enumerate(N2_MIN):
            near(f"{arguments}: nitrogen {i + 1}", float(down[f"n2_{i + 1}_bar"]),
                 decayed(float(left[f"n2_{i + 1}_bar"]), AIR_BAR, APART_MIN, half_time_min), 2e-6)
    print(f"{clock}: CNS {expected_pct:.1f} % by hand and by the ledger, {alone['cns_pct']} % were nothing carried")


def main():
    with work() as folder:
        write_log(folder, "first.uddf", FIRST)
        write_log(folder, "trimmed.uddf", TRIMMED)
        first, trimmed = add(folder, "trimmed", "first.uddf", "trimmed.uddf")
        for clock in WAITS_S:
            hold_wait(folder, clock, trimmed, first)


main()
