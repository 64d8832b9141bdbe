"""Records that were switched on long before their dive, or ran on long after it: a team is who was in the water together.

SPDX-License-Identifier: MIT
"""
import csv
import io
import os

from program import hold, main, run

# Dives of 40 min as minutes and metres, whatever the record holds before and after.
DIVED = ((0, 0), (2, 30), (20, 30), (24, 12), (30, 6), (39, 6), (40, 0))


def log_write(folder, diver, clock, before_min, after_min=0):
    """A record that begins at clock, whose dive begins before_min later."""
    points = [(before_min + minute, depth_m) for minute, depth_m in DIVED]
    rows = [(minute, 0) for minute in range(before_min)] + points + [(points[-1][0] + minute, 0) for minute in range(1, after_min + 1)]
    samples = "".join(f"<waypoint><depth>{depth_m}</depth><divetime>{60 * minute}</divetime>{'' if i else MIX}</waypoint>" for i, (minute, depth_m) in enumerate(rows))
    with open(f"{folder}/logs/{diver}.uddf", "w", encoding="ascii") as log:
        log.write('<uddf version="3.2.0"><gasdefinitions><mix id="n"><o2>0.21</o2><he>0</he></mix></gasdefinitions><profiledata><repetitiongroup><dive>'
                  f'<informationbeforedive><datetime>2031-05-06T{clock}:00+11:00</datetime></informationbeforedive><samples>{samples}</samples></dive>'
                  '</repetitiongroup></profiledata></uddf>')
    with open(f"{folder}/logs/{diver}.card", "w", encoding="ascii") as card:
        card.write(f"[dive]\ndiver = {diver}\n")


MIX = '<switchmix ref="n"/>'


def teams(folder):
    table = csv.DictReader(io.StringIO(run(folder, "audit", "--format", "csv", "--fail-on", "never", "logs").stdout))
    return {row["diver"]: row["team"] for row in table}


def pair(folder, first, second):
    """The teams of two divers, each told by the clock of the record and the minutes before and after the dive."""
    os.makedirs(f"{folder}/logs", exist_ok=True)
    log_write(folder, "Skua", *first)
    log_write(folder, "Tern", *second)
    return teams(folder)


def test_records_overlap_and_dives_do_not(folder):
    """Skua is in the water from 10:40 on; Tern from 09:00 to 09:40, or from 11:30 on."""
    hold("before", pair(folder, ("09:00", 100), ("09:00", 0)), {"Skua": "2", "Tern": "1"})
    hold("after", pair(folder, ("10:40", 0, 100), ("11:30", 0)), {"Skua": "1", "Tern": "2"})


def test_dives_overlap_and_records_hardly_do(folder):
    """Both in the water from 10:40 to 11:20; records of 200 min share 40 of them."""
    hold("together", pair(folder, ("08:00", 160), ("10:40", 0, 160)), {"Skua": "1", "Tern": "1"})


main(globals())
