"""Adds heaps of dives to a ledger and prints what it took: rate of adding, size a dive, time of show and of due. Judges no time.

usage: bench_ledger.py PLIMSOLL GENERATE     dives by PLM_BENCH_DIVES (200 unless set), of one diver for each 200, at least 2
SPDX-License-Identifier: MIT
"""
import os
import subprocess
import sys
import tempfile
import time

PLIMSOLL, GENERATE = sys.argv[1:3]
DIVES = int(os.environ.get("PLM_BENCH_DIVES", "200"))
DIVERS = max(2, DIVES // 200)


def timed(*arguments):
    begun = time.monotonic()
    done = subprocess.run([PLIMSOLL, "ledger", *arguments], capture_output=True, text=True, check=False)
    if done.returncode != 0:
        sys.exit(f"{arguments}: exit {done.returncode}\n{done.stderr}")
    return time.monotonic() - begun


def main():
    with tempfile.TemporaryDirectory(prefix="plimsoll-bench-") as folder:
        logs, ledger = os.path.join(folder, "logs"), os.path.join(folder, "l")
        os.mkdir(logs)
        subprocess.run([GENERATE, "--many", str(DIVES), "--divers", str(DIVERS), "--out", logs], check=True)
        log_bytes = sum(entry.stat().st_size for entry in os.scandir(logs))
        add_s = timed("add", "--ledger", ledger, logs)
        again_s = timed("add", "--ledger", ledger, logs)
        size = os.path.getsize(ledger)
        print(f"{DIVES} dives of {DIVERS} divers, {log_bytes / DIVES / 1000:.1f} kB of log a dive")
        print(f"add: {add_s:.1f} s, {DIVES / add_s:.1f} dives a second; the same once more {again_s:.1f} s, {DIVES / again_s:.0f} a second")
        print(f"ledger: {size / 1e6:.1f} MB, {size / DIVES / 1000:.2f} kB a dive")
        for name, arguments in (("show", ("show", "diver 001")), ("due", ("due", "diver 001", "--at", "2032-06-01T12:00Z")), ("list", ("list",)),
                                ("check", ("check",))):
            print(f"{name}: {min(timed(arguments[0], '--ledger', ledger, *arguments[1:]) for _ in range(3)) * 1000:.1f} ms")


main()
