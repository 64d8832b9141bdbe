"""Kills the program at random moments while it adds a folder: the ledger opens, is sound, holds each dive as a whole or not at all, and adding
the folder again completes it.

usage: killed.py PLIMSOLL SAMPLES GENERATE
SPDX-License-Identifier: MIT
"""
import os
import random
import subprocess
import time

from rough import GENERATE, PLIMSOLL, ROUNDS, counts, environment, fail, figures, make_dives, run, work


def kill_while_adding(folder, ledger, after_s):
    with subprocess.Popen([PLIMSOLL, "ledger", "add", "--ledger", ledger, "dives"], cwd=folder, env=environment(folder), stdout=subprocess.DEVNULL,
                          stderr=subprocess.DEVNULL) as program:
        time.sleep(after_s)
        program.kill()
    return program.returncode


def main():
    rounds = ROUNDS or 10
    with work() as folder:
        make_dives(os.path.join(folder, "dives"), 16, 3)
        took_s = 1e9
        for ledger in ("first", "whole"):
            begun = time.monotonic()
            run(folder, "ledger", "add", "--ledger", ledger, "dives", expect=(0,))
            took_s = min(took_s, time.monotonic() - begun)
        whole = figures(os.path.join(folder, "whole"))
        killed, tried, seen = 0, 0, set()
        while killed < rounds:
            tried += 1
            ledger, path = f"l{tried}", os.path.join(folder, f"l{tried}")
            killed += kill_while_adding(folder, ledger, random.uniform(0, took_s)) < 0
            if os.path.exists(path):
                done = run(folder, "ledger", "check", "--ledger", ledger)
                if done.returncode != 0 and "no ledger in it yet" not in done.stderr:
                    fail(f"after a kill: {done.stdout}{done.stderr}")
                if done.returncode == 0:
                    exposures, sound, _ = counts(path)
                    seen.add(exposures)
                    if exposures != sound:
                        fail(f"{exposures} dives, {sound} of them whole")
            run(folder, "ledger", "add", "--ledger", ledger, "dives", expect=(0,))
            run(folder, "ledger", "check", "--ledger", ledger, expect=(0,))
            if figures(path) != whole:
                fail("adding again did not complete the ledger")
            os.remove(path)
        print(f"killed {killed} times in {tried} rounds, with {sorted(seen)} of {len(whole)} dives in")


main()
