"""Flips bytes of a ledger at seeded places: no command crashes or hangs, and what `check --recompute` calls sound has its logs and its figures
to the last bit.

usage: damaged.py PLIMSOLL SAMPLES GENERATE
SPDX-License-Identifier: MIT
"""
import os
import random
import shutil
import sqlite3

from rough import ROUNDS, SAMPLES, fail, figures, logs, make_dives, run, work

COMMANDS = (("check", "--recompute"), ("list", "--format", "csv"), ("show", "diver 001"), ("due", "diver 001", "--at", "2031-01-03T20:00Z"))


def flip(path, seed):
    """One to eight bytes, near each other or anywhere. Returns: where."""
    numbers = random.Random(seed)
    with open(path, "r+b") as file:
        data = bytearray(file.read())
        first = numbers.randrange(len(data))
        places = [first] + [numbers.randrange(len(data)) if seed % 2 else min(len(data) - 1, first + numbers.randrange(64))
                            for _ in range(numbers.randrange(8))]
        for place in places:
            data[place] ^= 1 << numbers.randrange(8)
        file.seek(0)
        file.write(data)
    return places


def is_whole(path, whole):
    """What the file holds by SQLite itself, past the program."""
    try:
        return figures(path) == whole and all(logs(path).values())
    except (sqlite3.Error, UnicodeDecodeError):   # a damaged schema shows in the words of an error too
        return False


def main():
    found, sound = 0, 0
    with work() as folder:
        make_dives(os.path.join(folder, "dives"), 8, 2)
        run(folder, "ledger", "add", "--ledger", "whole", "dives", expect=(0,))
        whole = figures(os.path.join(folder, "whole"))
        for seed in range(ROUNDS or 100):
            path = shutil.copy(os.path.join(folder, "whole"), os.path.join(folder, "l"))
            places = flip(path, seed)
            checked = run(folder, "ledger", *COMMANDS[0], "--ledger", "l")
            if checked.returncode == 0 and not is_whole(path, whole):
                fail(f"seed {seed}, bytes {places}: called sound and is not")
            if checked.returncode != 0 and checked.stderr == "":
                fail(f"seed {seed}, bytes {places}: nothing is said")
            found += checked.returncode != 0
            sound += checked.returncode == 0
            for command in COMMANDS[1:]:
                run(folder, "ledger", *command, "--ledger", "l")
            before = logs_or_none(path)
            run(folder, "ledger", "add", "--ledger", "l", os.path.join(SAMPLES, "expedition/day-1/tern-handset.uddf"))
            after = logs_or_none(path)
            if before and not (after and set(before) <= set(after)):
                fail(f"seed {seed}, bytes {places}: a stored log is gone")
            for name in ("l", "l-wal", "l-shm"):
                if os.path.exists(os.path.join(folder, name)):
                    os.remove(os.path.join(folder, name))
    print(f"{found} damaged files found damaged, {sound} where the damage touched nothing that counts")


def logs_or_none(path):
    try:
        return logs(path)
    except (sqlite3.Error, UnicodeDecodeError):   # a damaged schema shows in the words of an error too
        return None


main()
