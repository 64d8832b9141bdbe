"""Fills a small file system: the error is clear, what was there is there, and with more room adding again completes it. Needs leave to mount.

usage: no_room.py PLIMSOLL SAMPLES GENERATE
SPDX-License-Identifier: MIT
"""
import os
import random
import subprocess
import sys

from rough import ROUNDS, counts, fail, figures, make_dives, run, work

DIVES = 24
INSIDE = "PLM_LEDGER_INSIDE"


def mount(folder, size_kb, again=False):
    return subprocess.run(["mount", "-t", "tmpfs", "-o", f"{'remount,' if again else ''}size={size_kb}k", "tmpfs", folder], capture_output=True,
                          check=False).returncode == 0


def enter():
    """Starts this test again in a mount namespace of its own; a word and 77 where that is not allowed."""
    for way in (["unshare", "--mount"], ["unshare", "--user", "--map-root-user", "--mount"]):
        if subprocess.run([*way, "mount", "-t", "tmpfs", "tmpfs", "/mnt"], capture_output=True, check=False).returncode == 0:
            os.environ[INSIDE] = "yes"
            sys.exit(subprocess.run([*way, sys.executable, *sys.argv], check=False).returncode)
    print("skipped: mounting a file system is not allowed here")
    sys.exit(77)


def fill(folder, small, size_kb):
    """Adds into a file system of that size. Returns the dives that found room."""
    if not mount(small, size_kb):
        print("skipped: mounting a file system is not allowed here")
        sys.exit(77)
    try:
        done = run(folder, "ledger", "add", "--ledger", "small/l", "dives", expect=(0, 3))
        if done.returncode == 3 and "no space is left" not in done.stderr:
            fail(f"{size_kb} kB: the error does not say why: {done.stderr}")
        check = run(folder, "ledger", "check", "--ledger", "small/l")
        if check.returncode == 3 and "no space is left" in check.stderr:   # looking needs a little room as well
            mount(small, 20000, again=True)
            check = run(folder, "ledger", "check", "--ledger", "small/l")
        empty = check.returncode != 0 and "no ledger in it yet" in check.stderr
        if check.returncode != 0 and not empty:
            fail(f"{size_kb} kB: {check.stdout}{check.stderr}")
        exposures, sound, _ = (0, 0, 0) if empty else counts(os.path.join(small, "l"))
        if exposures != sound or done.stdout.count("added") != exposures or (exposures == DIVES) != (done.returncode == 0):
            fail(f"{size_kb} kB: {exposures} dives, {sound} whole, {done.stdout.count('added')} told as added, exit {done.returncode}")
        mount(small, 20000, again=True)
        run(folder, "ledger", "add", "--ledger", "small/l", "dives", expect=(0,))
        if figures(os.path.join(small, "l")) != figures(os.path.join(folder, "whole")):
            fail(f"{size_kb} kB: adding again did not complete the ledger")
        return exposures
    finally:
        subprocess.run(["umount", small], check=False)


def main():
    if INSIDE not in os.environ:
        enter()
    seeded = random.Random(20310505)
    sizes_kb = [300, 29] + [seeded.randrange(8, 1600) for _ in range(ROUNDS)]
    with work() as folder:
        make_dives(os.path.join(folder, "dives"), DIVES, 2)
        run(folder, "ledger", "add", "--ledger", "whole", "dives", expect=(0,))
        small = os.path.join(folder, "small")
        os.mkdir(small)
        found = [fill(folder, small, size_kb) for size_kb in sizes_kb]
        if not 0 < found[0] < DIVES:
            fail(f"{found[0]} dives found room in 300 kB")
        print(f"full in {sum(dives < DIVES for dives in found)} of {len(found)} file systems, after {min(found)} to {max(found)} of {DIVES} dives; "
              "completed with more room")


main()
