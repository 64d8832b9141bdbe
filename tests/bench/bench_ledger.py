"""Adds heaps of dives to a ledger, from a folder of logs and from one file, and prints what it took: rates of adding and how they grow with the
number of dives, size a dive, time of show and of due. Judges no time.

usage: bench_ledger.py PLIMSOLL GENERATE     up to PLM_BENCH_DIVES dives (200 unless set): a hundredth, a tenth and all of them, at least 25
SPDX-License-Identifier: MIT
"""
import datetime
import math
import os
import resource
import subprocess
import sys
import tempfile
import time

PLIMSOLL, GENERATE = sys.argv[1:3]
DIVES = int(os.environ.get("PLM_BENCH_DIVES", "200"))
SAMPLES, STEP_S = 600, 5


def timed(*arguments):
    """Seconds by the wall, seconds of the processor."""
    begun, before = time.monotonic(), resource.getrusage(resource.RUSAGE_CHILDREN)
    done = subprocess.run([PLIMSOLL, "ledger", *arguments], stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, text=True, errors="replace", check=False)
    if done.returncode not in (0, 2):
        sys.exit(f"{arguments}: exit {done.returncode}\n{done.stderr}")
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return time.monotonic() - begun, after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def depth_m(i, deepest_m):
    """Down in a tenth of the dive, to its last quarter on the bottom and up to 5 m, there, and up."""
    x = i / (SAMPLES - 1)
    corners = ((0, 0), (0.1, deepest_m), (0.6, deepest_m), (0.85, 5), (0.97, 5), (1, 0))
    for (a, from_m), (b, to_m) in zip(corners, corners[1:]):
        if x <= b:
            return from_m + (to_m - from_m) * (x - a) / (b - a)
    return 0


def write_file(path, count):
    """Dives of one diver in one UDDF, three a day."""
    begin = datetime.datetime(2031, 1, 1, 8)
    with open(path, "w", encoding="utf-8") as file:
        file.write('<uddf version="3.2.0"><gasdefinitions><mix id="n"><o2>0.32</o2><he>0</he></mix></gasdefinitions><profiledata><repetitiongroup>\n')
        for dive in range(count):
            clock = (begin + datetime.timedelta(hours=8 * dive)).isoformat()
            file.write(f"<dive><informationbeforedive><datetime>{clock}+11:00</datetime></informationbeforedive><samples>\n")
            for i in range(SAMPLES):
                mix = '<switchmix ref="n"/>' if i == 0 else ""
                file.write(f"<waypoint><depth>{depth_m(i, 18 + dive * 7 % 15):.1f}</depth><divetime>{i * STEP_S}</divetime>{mix}</waypoint>\n")
            file.write("</samples></dive>\n")
        file.write("</repetitiongroup></profiledata></uddf>\n")


def hold_rates(what, counts, seconds):
    for count, (wall_s, cpu_s) in zip(counts, seconds):
        print(f"add {count} dives from {what}: {cpu_s:.2f} s of the processor, {count / cpu_s:.0f} dives a second; {wall_s:.1f} s by the wall")
    n, x, y = len(counts), [math.log(count) for count in counts], [math.log(cpu_s) for _, cpu_s in seconds]
    slope = (n * sum(a * b for a, b in zip(x, y)) - sum(x) * sum(y)) / (n * sum(a * a for a in x) - sum(x) ** 2)
    print(f"time from {what} grows with dives to the power of {slope:.2f}")


def main():
    counts = sorted({max(25, DIVES // 100), max(50, DIVES // 10), DIVES})
    with tempfile.TemporaryDirectory(prefix="plimsoll-bench-") as folder:
        ledger = {}
        for what in ("one file", "a folder"):
            seconds = []
            for count in counts:
                logs, ledger[what] = os.path.join(folder, f"{what} {count}"), os.path.join(folder, f"{what} {count}.ledger")
                if what == "one file":
                    write_file(logs, count)
                else:
                    os.mkdir(logs)
                    subprocess.run([GENERATE, "--many", str(count), "--divers", str(max(2, count // 200)), "--out", logs], check=True)
                seconds.append(timed("add", "--ledger", ledger[what], *(("--diver", "Tern") if what == "one file" else ()), logs))
            hold_rates(what, counts, seconds)
        print(f"the folder once more: {DIVES / timed('add', '--ledger', ledger['a folder'], logs)[1]:.0f} dives a second")
        for what in ledger:
            print(f"ledger of {what}: {os.path.getsize(ledger[what]) / DIVES / 1000:.2f} kB a dive")
        for name, arguments in (("show", ("show", "diver 001")), ("due", ("due", "diver 001", "--at", "2032-06-01T12:00Z")), ("list", ("list",)),
                                ("check", ("check",))):
            print(f"{name}: {min(timed(arguments[0], '--ledger', ledger['a folder'], *arguments[1:])[0] for _ in range(3)) * 1000:.1f} ms")


main()
