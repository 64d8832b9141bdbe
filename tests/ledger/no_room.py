"""Fills a small file system: the error is clear, what was there is there, and with more room adding again completes it. Needs leave to mount.

usage: no_room.py PLIMSOLL SAMPLES GENERATE
SPDX-License-Identifier: MIT
"""
import os
import subprocess
import sys

from rough import counts, fail, figures, make_dives, run, work

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


def main():
    if INSIDE not in os.environ:
        enter()
    with work() as folder:
        make_dives(os.path.join(folder, "dives"), 24, 2)
        run(folder, "ledger", "add", "--ledger", "whole", "dives", expect=(0,))
        small = os.path.join(folder, "small")
        os.mkdir(small)
        if not mount(small, 300):
            print("skipped: mounting a file system is not allowed here")
            sys.exit(77)
        try:
            done = run(folder, "ledger", "add", "--ledger", "small/l", "dives", expect=(3,))
            if "no space is left" not in done.stderr:
                fail(f"the error does not say why: {done.stderr}")
            run(folder, "ledger", "check", "--ledger", "small/l", expect=(0,))
            exposures, sound, _ = counts(os.path.join(small, "l"))
            if not 0 < exposures < 24 or exposures != sound or done.stdout.count("added") != exposures:
                fail(f"{exposures} dives, {sound} whole, {done.stdout.count('added')} told as added")
            run(folder, "ledger", "show", "--ledger", "small/l", "diver 001", expect=(0,))
            mount(small, 20000, again=True)
            run(folder, "ledger", "add", "--ledger", "small/l", "dives", expect=(0,))
            if figures(os.path.join(small, "l")) != figures(os.path.join(folder, "whole")):
                fail("adding again did not complete the ledger")
            print(f"full after {exposures} of 24 dives; completed with more room")
        finally:
            subprocess.run(["umount", small], check=False)


main()
