"""Two programs add to one ledger at once: both end well, nothing is lost or there twice.

usage: together.py PLIMSOLL SAMPLES GENERATE
SPDX-License-Identifier: MIT
"""
import os
import subprocess

from rough import PLIMSOLL, ROUNDS, counts, environment, fail, figures, make_dives, run, work


def add_together(folder, ledger, *parts):
    programs = [subprocess.Popen([PLIMSOLL, "ledger", "add", "--ledger", ledger, *part], cwd=folder, env=environment(folder),
                                 stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, text=True) for part in parts]
    for program in programs:
        _, said = program.communicate(timeout=600)
        if program.returncode != 0:
            fail(f"exit {program.returncode}: {said}")


def main():
    with work() as folder:
        make_dives(os.path.join(folder, "dives"), 24, 2)
        names = sorted(os.path.join("dives", name) for name in os.listdir(os.path.join(folder, "dives")))
        run(folder, "ledger", "add", "--ledger", "alone", "dives", expect=(0,))
        alone = figures(os.path.join(folder, "alone"))
        for i in range(ROUNDS or 3):
            for ledger, parts in ((f"same{i}", [["dives"], ["dives"]]), (f"halves{i}", [names[::2], names[1::2]]),
                                  (f"against{i}", [names, list(reversed(names))])):
                add_together(folder, ledger, *parts)
                path = os.path.join(folder, ledger)
                run(folder, "ledger", "check", "--ledger", ledger, expect=(0,))
                if figures(path) != alone or counts(path) != (24, 24, 24):
                    fail(f"{ledger}: {counts(path)} dives, whole dives, records; or other figures than when alone")
        print("24 dives, added by two programs at once in", ROUNDS or 3, "rounds of three ways: all there, once")


main()
