"""A ledger that may not be written to can be looked at and is left as it is; so is one of a newer version, and what is no ledger.

usage: read_only.py PLIMSOLL SAMPLES GENERATE
SPDX-License-Identifier: MIT
"""
import os
import shutil
import sqlite3

from rough import SAMPLES, digest, fail, run, work

NOBODY = 65534
CHANGES = (("add", os.path.join(SAMPLES, "expedition/day-2/tern-wrist.csv")), ("remove", "--yes", "1"), ("check", "--renew"))
LOOKS = (("list",), ("show", "Tern"), ("due", "Tern", "--at", "2031-05-04T20:00+11:00"), ("check", "--recompute"), ("export", "out"))


def as_nobody():
    """Words before a command: root may write anywhere, so root becomes somebody else."""
    return () if os.getuid() != 0 else ("setpriv", f"--reuid={NOBODY}", f"--regid={NOBODY}", "--clear-groups")


def read_only(folder, path):
    """The file, then its folder too: a reader cannot leave anything beside it then."""
    shared = os.path.join(folder, "shared")
    os.mkdir(shared)
    os.chmod(folder, 0o755)
    ledger = shutil.copy(path, os.path.join(shared, "l"))
    out = os.path.join(folder, "own")
    os.mkdir(out)
    os.chmod(out, 0o777)
    was = digest(ledger)
    for file_mode, folder_mode in ((0o444, 0o777), (0o444, 0o555)):
        os.chmod(ledger, file_mode)
        os.chmod(shared, folder_mode)
        for look in LOOKS:
            run(out, "ledger", look[0], "--ledger", ledger, *look[1:], expect=(0,), before=as_nobody())
        for change in CHANGES:
            done = run(out, "ledger", change[0], "--ledger", ledger, *change[1:], expect=(3,), before=as_nobody())
            if "cannot be written" not in done.stderr and "cannot be opened" not in done.stderr:
                fail(f"{change}: the error does not say why: {done.stderr}")
        if digest(ledger) != was:
            fail("a read-only ledger was changed")
    os.chmod(shared, 0o755)


def refused(folder, path, word):
    was = digest(path)
    for command in CHANGES + LOOKS:
        done = run(folder, "ledger", command[0], "--ledger", path, *command[1:], expect=(2, 3))
        if word not in done.stderr:
            fail(f"{command}: no word of {word}: {done.stderr}")
    if digest(path) != was:
        fail(f"{word}: the file was changed")


def main():
    with work() as folder:
        path = os.path.join(folder, "l")
        run(folder, "ledger", "add", "--ledger", path, os.path.join(SAMPLES, "expedition/day-1/tern-handset.uddf"), expect=(0,))
        read_only(folder, path)
        newer = shutil.copy(path, os.path.join(folder, "newer"))
        db = sqlite3.connect(newer)
        db.execute("PRAGMA user_version = 77")
        db.close()
        refused(folder, newer, "newer version")
        other = os.path.join(folder, "other")
        db = sqlite3.connect(other)
        db.execute("CREATE TABLE somebody (name TEXT)")
        db.close()
        refused(folder, other, "not a ledger")
        text = os.path.join(folder, "text")
        with open(text, "w", encoding="utf-8") as file:
            file.write("time_s,depth_m\n" * 400)
        refused(folder, text, "not a ledger")
        print("read-only files and folders are read, newer ledgers and other files left alone")


main()
