"""A record that names another dive of its log than the one that its exposure was: check tells it and renews nothing.

usage: places.py PLIMSOLL SAMPLES GENERATE
SPDX-License-Identifier: MIT
"""
import os

from rough import fail, figures, look_into, run, work

DIVES = ((9, 30), (12, 20), (15, 12))   # hour, depth in m


def log_text():
    dives = []
    for hour, depth_m in DIVES:
        points = "".join(f"<waypoint><divetime>{time_s}</divetime><depth>{at_m}</depth></waypoint>"
                         for time_s, at_m in ((0, 0), (120, depth_m), (1800, depth_m), (2100, 5), (2400, 5), (2460, 0)))
        dives.append(f"<dive><informationbeforedive><datetime>2031-05-06T{hour:02}:00:00+11:00</datetime></informationbeforedive>"
                     f"<samples>{points}</samples></dive>")
    return f'<uddf version="3.2.0"><profiledata><repetitiongroup>{"".join(dives)}</repetitiongroup></profiledata></uddf>'


def main():
    with work() as folder:
        with open(os.path.join(folder, "three.uddf"), "w", encoding="utf-8") as file:
            file.write(log_text())
        run(folder, "ledger", "add", "--ledger", "l", "--diver", "Tern", "three.uddf", expect=(0, 2))
        ledger = os.path.join(folder, "l")
        before = figures(ledger)
        run(folder, "ledger", "check", "--recompute", "--ledger", "l", expect=(0,))
        db = look_into(ledger)
        for old, new in ((2, 9), (3, 2), (9, 3)):
            db.execute("UPDATE record SET log_index = ? WHERE log_index = ?", (new, old))
        db.commit()
        db.close()
        for option in ("--recompute", "--renew"):
            told = run(folder, "ledger", "check", option, "--ledger", "l", expect=(2,)).stderr
            if told.count("tells another start") != 2:
                fail(f"check {option} does not tell of two dives that are others:\n{told}")
        if [row[5:] for row in figures(ledger)] != [row[5:] for row in before]:
            fail("figures were renewed from other dives")
        print("two records that name each other's dives: told, nothing renewed")


main()
