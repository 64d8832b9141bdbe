"""Fails where the lists of kinds and rules differ: the X-lists, the program's words, the manuals and the tests.

usage: kinds.py ROOT PLIMSOLL
Every kind of enum plm_finding_kind is explained by the program under its name in lower case with hyphens, with the same
words in plimsoll-findings(7), and has a test that raises it and one that spares it, with its reviewer or with the
floor team. Every rule stands in plimsoll-rules(5) with its default and meaning.
SPDX-License-Identifier: MIT
"""
import glob
import os
import re
import subprocess
import sys

from house import Report

HEADINGS = ("What it means", "How severe", "How it is found", "What it stands on", "What to ask the diver")


def run(plimsoll, *words):
    return subprocess.run([plimsoll, *words], check=True, capture_output=True, text=True).stdout


def words_of(path):
    """A manual's words, macros and escapes aside, between single blanks."""
    text = open(path, encoding="utf-8").read().replace("\\&", "")
    return " ".join(text.split())


def sections(text):
    """heading -> words, of one explanation."""
    found, heading = {}, None
    for line in text.splitlines()[1:]:
        if line and not line.startswith(" "):
            heading = found.setdefault(line, [])
        elif line:
            heading.append(line.strip())
    return {name: " ".join(lines) for name, lines in found.items()}


def look_at_kinds(root, plimsoll, report):
    table = os.path.join(root, "include", "plimsoll", "findings.h")
    manual = words_of(os.path.join(root, "man", "plimsoll-findings.7"))
    tests = "".join(open(path, encoding="utf-8").read()
                    for floor in ("review", "team")
                    for path in glob.glob(os.path.join(root, "tests", "unit", floor, "*.c")))
    names = re.findall(r"^    PLM_FINDING_(\w+),", open(table, encoding="utf-8").read(), re.MULTILINE)
    kinds = [name.lower().replace("_", "-") for name in names]
    for kind in kinds:
        explained = sections(run(plimsoll, "explain", kind))
        for heading in HEADINGS:
            if explained.get(heading, "") == "" or explained[heading] not in manual:
                report.add(table, 0, f"{kind}: '{heading}' is not in plimsoll-findings(7) with the words of explain")
        if f".Ss {kind} " not in manual:
            report.add(table, 0, f"{kind}: no .Ss in plimsoll-findings(7)")
        for what in ("raises", "spares"):
            if f"START_TEST({what}_{kind.replace('-', '_')})" not in tests:
                report.add(table, 0, f"{kind}: no test {what} it")
    listed = [line.split()[0] for line in run(plimsoll, "explain").splitlines()]
    if listed != kinds:
        report.add(table, 0, "explain lists other kinds, or in another order")
    return len(kinds)


def look_at_rules(root, plimsoll, report):
    table = os.path.join(root, "include", "plimsoll", "rules.def")
    manual = words_of(os.path.join(root, "man", "plimsoll-rules.5"))
    text = open(table, encoding="utf-8").read()
    told = dict(re.findall(r"^(\w+) = (\S+)  ;", run(plimsoll, "rules"), re.MULTILINE))
    rows = re.findall(r'^PLM_RULE(?:_CHOICE)?\((\w+),.*?"([^"]*)", "([^"]*)"\)$', text, re.MULTILINE)
    for key, meaning, source in rows:
        if key not in told or f".It {key} = {told[key]} " not in manual:
            report.add(table, 0, f"{key}: not in plimsoll-rules(5) with its default")
        if f"{meaning[:1].upper()}{meaning[1:]}." not in manual or f"Source: {source}." not in manual:
            report.add(table, 0, f"{key}: its meaning or source is not in plimsoll-rules(5)")
    if set(told) != {row[0] for row in rows}:
        report.add(table, 0, "plimsoll rules tells other rules")
    return len(rows)


def main(root, plimsoll):
    report = Report(root)
    looked_at = look_at_kinds(root, plimsoll, report) + look_at_rules(root, plimsoll, report)
    report.finish(looked_at)


main(os.path.abspath(sys.argv[1]), os.path.abspath(sys.argv[2]))
