"""Fails when a review of the samples finds other kinds than README.md promises.

usage: expected.py PLIMSOLL SAMPLES EXPECTED
EXPECTED has lines `FILE [OPTION...]: KIND...`: the kinds found at or above caution. The traces of one record in
several formats are the same, to the byte.
SPDX-License-Identifier: MIT
"""
import json
import os
import subprocess
import sys

SAME_TRACE = ("deep-terrace.csv", "deep-terrace.uddf", "deep-terrace-log.gz")


def run(plimsoll, samples, *words):
    """stdout of the program, run in the folder of the samples; nothing where it could not use its input."""
    ran = subprocess.run([plimsoll, *words], cwd=samples, capture_output=True, check=False)
    if ran.returncode in (0, 1):
        return ran.stdout
    print(f"{' '.join(words)}: exit status {ran.returncode}\n{ran.stderr.decode()}")
    return b""


def kinds(output):
    """The kinds of findings at or above caution, of all dives."""
    try:
        dives = json.loads(output)["dives"]
    except ValueError:
        return None
    return {finding["kind"] for dive in dives for finding in dive["findings"] if finding["severity"] != "note"}


def main(plimsoll, samples, expected):
    looked_at = wrong = 0
    for line in open(expected, encoding="utf-8"):
        words, _, want = line.split("#")[0].partition(":")
        if not words.strip():
            continue
        looked_at += 1
        found = kinds(run(plimsoll, samples, "debrief", "--format", "json", *words.split()))
        if found != set(want.split()):
            wrong += 1
            print(f"{words}: want {sorted(want.split())}, found {sorted(found) if found is not None else 'no JSON'}")
    traces = {name: run(plimsoll, samples, "trace", name) for name in SAME_TRACE}
    for name, trace in traces.items():
        if trace != traces[SAME_TRACE[0]] or trace.count(b"\n") < 1000:
            wrong += 1
            print(f"{name}: its trace is not that of {SAME_TRACE[0]}")
    print(f"{looked_at} reviews, {len(traces)} traces, {wrong} wrong")
    sys.exit(1 if wrong or not looked_at else 0)


main(os.path.abspath(sys.argv[1]), sys.argv[2], os.path.abspath(sys.argv[3]))
