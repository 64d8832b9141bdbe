"""Dives are personal: a new ledger is for its owner alone, with what SQLite puts beside it and the folders that are made, whatever the umask; one that
is there keeps its mode; what is written of it goes by the umask.

usage: modes.py PLIMSOLL SAMPLES GENERATE
SPDX-License-Identifier: MIT
"""
import os
import sqlite3
import stat

from rough import SAMPLES, fail, make_dives, run, work


def mode(path):
    return stat.S_IMODE(os.stat(path).st_mode)


def expect_mode(path, expected, umask):
    if mode(path) != expected:
        fail(f"umask {umask:03o}: {path} has mode {mode(path):04o}, expected {expected:04o}")


def under(folder, umask):
    before = os.umask(umask)
    try:
        home = os.path.join(folder, f"home-{umask:03o}")
        os.mkdir(home)
        place = os.path.join(home, ".local/share/plimsoll")
        dives = os.path.join(folder, "dives")
        run(home, "ledger", "add", dives, expect=(0,))
        for made in (os.path.dirname(os.path.dirname(place)), os.path.dirname(place), place):
            expect_mode(made, 0o700, umask)
        ledger = os.path.join(place, "exposures.ledger")
        expect_mode(ledger, 0o600, umask)
        run(home, "ledger", "add", "--ledger", "named", dives, expect=(0,))
        expect_mode(os.path.join(home, "named"), 0o600, umask)
        beside(ledger, umask)
        if "others on this computer" in run(home, "ledger", "check", expect=(0,)).stderr:
            fail(f"umask {umask:03o}: check speaks of others")
        run(home, "ledger", "list", "--format", "csv", "-o", "list.csv", expect=(0,))
        expect_mode(os.path.join(home, "list.csv"), 0o666 & ~umask, umask)
        os.chmod(ledger, 0o644)
        run(home, "ledger", "add", os.path.join(SAMPLES, "expedition/day-1/tern-handset.uddf"), expect=(0,))
        expect_mode(ledger, 0o644, umask)
        if "others on this computer may open it (mode 0644)" not in run(home, "ledger", "check", expect=(0,)).stderr:
            fail(f"umask {umask:03o}: check does not speak of others")
    finally:
        os.umask(before)


def beside(ledger, umask):
    """The journal and its index, which are there as long as somebody has the ledger open."""
    db = sqlite3.connect(ledger)
    db.execute("BEGIN IMMEDIATE")
    for tail in ("-wal", "-shm"):
        expect_mode(ledger + tail, 0o600, umask)
    db.close()


def main():
    with work() as folder:
        make_dives(os.path.join(folder, "dives"), 2, 1)
        for umask in (0o000, 0o077):
            under(folder, umask)
    print("modes hold under umask 000 and 077")


main()
