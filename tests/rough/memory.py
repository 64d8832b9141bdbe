"""Memory by rule: the longest dive that is taken fits into 1 GB with hold and cost, in text and as a page.

Peak resident memory of two dives of the same shape, one five times as long: what a sample takes is the difference. Beside it stands that what
is behind the longest dive is told and not kept.
SPDX-License-Identifier: MIT
"""
import math
import os
import re
import subprocess
import sys

from program import PLIMSOLL, Failed, environment, hold_in, main, run

GB = 10**9
SHORT, LONG = 20000, 100000
# A loop with three cells and a tank, up and down all the way: ceilings are broken, so that edits and their replays are made.
HEADER = "time_s,depth_m,mode,o2_frac,he_frac,setpoint_bar,cell1_bar,cell2_bar,cell3_bar,tank pressure (bar)\n"


def write(path, samples):
    with open(path, "w", encoding="ascii") as log:
        log.write(HEADER)
        for i in range(samples):
            at = i / (samples - 1)
            depth_m = 60 * min(1, at / 0.02, (1 - at) * 2) + (0.2 * math.sin(i / 7) if 0.001 < at < 0.999 else 0)
            setting = "closed,0.18,0.45,1.3" if i == 0 else ",,,"
            log.write(f"{7200 * at:.3f},{depth_m:.1f},{setting},{1.28 + 0.02 * math.sin(i):.2f},1.30,{1.31 + 0.01 * math.cos(i):.2f},{200 - 100 * at:.0f}\n")


def peak_bytes(folder, *arguments):
    with subprocess.Popen([PLIMSOLL, *arguments], cwd=folder, env=environment(folder), stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL,
                          stderr=subprocess.DEVNULL) as child:
        _, status, usage = os.wait4(child.pid, 0)
        child.returncode = os.waitstatus_to_exitcode(status)
    if child.returncode != 1:
        raise Failed(f"{arguments}: exit {child.returncode}, expected findings")
    return usage.ru_maxrss * 1024


def samples_max(folder):
    return int(re.search(r"^samples_max = (\d+)", run(folder, "rules", expect=0).stdout, re.MULTILINE).group(1))


def test_the_longest_dive_fits(folder):
    most = samples_max(folder)
    for name, samples in (("short.csv", SHORT), ("long.csv", LONG)):
        write(f"{folder}/{name}", samples)
    for form in ("text", "html"):
        short, long = (peak_bytes(folder, "debrief", "--format", form, name) for name in ("short.csv", "long.csv"))
        each = (long - short) / (LONG - SHORT)
        whole = short + each * (most - SHORT)
        print(f"{form}: {each:.0f} B a sample, {whole / GB:.2f} GB for {most} samples")
        if not 0 < whole <= GB:
            raise Failed(f"{form}: {each:.0f} B a sample are {whole / GB:.2f} GB for the {most} samples of the rule samples_max")


def test_what_is_longer_is_told(folder):
    write(f"{folder}/log.csv", 300)
    with open(f"{folder}/rules", "w", encoding="ascii") as rules:
        rules.write("samples_max = 200\n")
    done = run(folder, "debrief", "--rules", "rules", "log.csv", expect=2)
    hold_in("what is behind", "log.csv:202: warning: more than 200 samples or events (rule samples_max); the record ends there", done.stderr)
    hold_in("no surfacing", "not known: the record ends in the water", done.stdout)


if os.environ.get("PLM_SANITIZED") == "yes":
    print("sanitizers take memory of their own")
    sys.exit(77)
main(globals())
