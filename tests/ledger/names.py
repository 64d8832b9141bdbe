"""Names of divers: one person under every spelling that means the same, two told apart, and no two that share a file of an export.

usage: names.py PLIMSOLL SAMPLES GENERATE
Sources: UAX #15, figure 3 (canonical equivalents) and The Unicode Standard, White_Space, for what is one name; file systems that know no case
and reserved names of DOS for file names: common practice, no source.
SPDX-License-Identifier: MIT
"""
import csv
import io
import os
import unicodedata

from rough import fail, look_into, run, work

LOG = "{head}start: 2031-05-{day:02d} {hour:02d}:00+11:00\ntime_s,depth_m,mode,o2_frac,he_frac\n0,0,open,0.21,0\n60,{depth},,,\n900,{depth},,,\n1200,0,,,\n"
# Each line is one person.
ONE = (("T\u00e9rn", "Te\u0301rn", " T\u00e9rn\u00a0", "T\u00e9rn\u2003"), ("Quill Reef", "Quill  Reef", "Quill\t Reef", "Quill\u3000Reef"),
       ("\u212bse", "\u00c5se", "A\u030ase"), ("\ud55c\uad6d", "\u1112\u1161\u11ab\u1100\u116e\u11a8"))
MANY = ("a/b", "a_b", "a:b", "A?B", "a\\b", "..", ".", "con", "COM1", "dives.csv", "dives", "a", "a-days.csv", "a.", "=x", "'=x", "''=x", "-1", "@y", "x ; y", "x;y",
        "# z", "[z]", "; z", "\"q\"", "'q'", "\u202eabc", "\u65e5\u672c", "Stra\u00dfe", "x" * 140, "x" * 139 + "y", "a = b", "a, b", "\\u{1b}", "\\", "k: v",
        "n" + "\u00e9" * 60, "n" + "\u00e9" * 59 + "e", "null", "-", "none", "unknown", "%s", "~", "$(x)")


def log_write(folder, name, day, hour=9, depth=20, head=""):
    with open(os.path.join(folder, name), "w", encoding="utf-8", newline="") as file:
        file.write(LOG.format(day=day, hour=hour, depth=depth, head=head))
    return name


def divers(folder, ledger):
    text = run(folder, "ledger", "list", "--ledger", ledger, "--format", "csv", expect=(0,)).stdout
    found = {}
    for row in csv.DictReader(io.StringIO(text, newline="")):
        name = row["diver"]
        name = name[1:] if name.startswith("'") and name.lstrip("'")[:1] in tuple("=+-@") else name
        name = name.replace("\\u{202e}", "\u202e").replace("\\u{5c}", "\\")
        found[name] = found.get(name, 0) + 1
    return found


def one_person(folder):
    day = 1
    for number, spellings in enumerate(ONE):
        ledger = f"one-{number}"
        for spelling in spellings:
            log = log_write(folder, f"log-{day}.csv", day)
            run(folder, "ledger", "add", "--ledger", ledger, "--diver", spelling, log, expect=(0, 2))
            day += 1
        found = divers(folder, ledger)
        wanted = unicodedata.normalize("NFC", spellings[0].strip())
        if found != {wanted: len(spellings)}:
            fail(f"{spellings} became {found}")
        for spelling in spellings:
            shown = run(folder, "ledger", "show", "--ledger", ledger, spelling, expect=(0,)).stdout
            if f"{wanted}: {len(spellings)} dives" not in shown:
                fail(f"{spelling!r} is not shown: {shown[:200]!r}")
    print(f"{day - 1} spellings of {len(ONE)} persons held")


def told_apart(folder):
    """Case alone makes no other person, accents do; either is told with both names and what to do."""
    log_write(folder, "t-1.csv", 1)
    log_write(folder, "t-2.csv", 2)
    log_write(folder, "t-3.csv", 3)
    log_write(folder, "t-4.csv", 4)
    run(folder, "ledger", "add", "--ledger", "t", "--diver", "T\u00e9rn", "t-1.csv", expect=(0, 2))
    for log, spelling, people in (("t-2.csv", "T\u00c9RN", 1), ("t-3.csv", "Tern", 2)):
        said = run(folder, "ledger", "add", "--ledger", "t", "--diver", spelling, log, expect=(0, 2)).stderr
        if not any("warning" in line and "T\u00e9rn" in line and spelling in line and "--diver" in line for line in said.splitlines()):
            fail(f"{spelling} beside T\u00e9rn: {said!r}")
        if len(divers(folder, "t")) != people:
            fail(f"{spelling}: {divers(folder, 't')}")
    said = run(folder, "ledger", "add", "--ledger", "t", "--diver", "Tern", "t-4.csv", expect=(0, 2)).stderr
    if "diver-name" in said:
        fail(f"told of a name that is known: {said!r}")
    for blank in ("", " ", "\u00a0\t", b"S\xf8ren"):
        if "name of a diver" not in run(folder, "ledger", "add", "--ledger", "t", "--diver", blank, "t-1.csv", expect=(3,)).stderr:
            fail(f"{blank!r} is a name")


def tampered(folder):
    """A ledger whose names do not fit together is not sound."""
    log_write(folder, "s-1.csv", 1)
    for number, change in enumerate(("key = 'skua'", "name = 'Skua'", "name = 'T\u00e9rn '", "key = 'T\u00c9RN'", "name = 'T' || char(0) || 'x'", "name = CAST(x'54e9726e' AS TEXT)")):
        ledger = f"s-{number}"
        run(folder, "ledger", "add", "--ledger", ledger, "--diver", "T\u00e9rn", "s-1.csv", expect=(0, 2))
        run(folder, "ledger", "check", "--ledger", ledger, expect=(0,))
        db = look_into(os.path.join(folder, ledger))
        db.execute("UPDATE diver SET " + change)
        db.commit()
        db.close()
        if "diver" not in run(folder, "ledger", "check", "--ledger", ledger, expect=(2,)).stderr:
            fail(f"{change} is not named")
    print("names that do not fit their keys are found")


def exported(folder):
    for number, name in enumerate(MANY):
        log = log_write(folder, f"m-{number}.csv", 1 + number % 28, number // 28 * 3, 20 + number % 5)
        run(folder, "ledger", "add", "--ledger", "m", "--diver", name, log, expect=(0, 2))
    wanted = divers(folder, "m")
    if set(wanted) != set(MANY):
        fail(f"kept otherwise: {set(wanted) ^ set(MANY)}")
    for to in ("uddf", "csv", "logs"):
        run(folder, "ledger", "export", "--ledger", "m", "--to", to, f"out-{to}", expect=(0, 2))
        tops = [unicodedata.normalize("NFC", name).casefold() for name in os.listdir(os.path.join(folder, f"out-{to}"))]
        if len(set(tops)) != len(tops) or len(tops) != 2 * len(MANY) + 1:
            fail(f"{to}: {len(MANY)} names became {len(tops)} entries, {len(set(tops))} of them different without case")
        if any(name.rstrip(". ") != name or name.split(".")[0] in ("con", "com1", "aux", "nul", "prn") for name in tops):
            fail(f"{to}: a name that not every file system takes in {tops}")
        run(folder, "ledger", "add", "--ledger", f"again-{to}", f"out-{to}", expect=(0, 2))
        found = divers(folder, f"again-{to}")
        if found != wanted:
            fail(f"{to}: names came back otherwise: {set(found) ^ set(wanted)}")
    print(f"{len(MANY)} names out and in again as UDDF, tables and logs")


def same_elsewhere(folder):
    """Everything that compares names compares them so."""
    log_write(folder, "a.csv", 7, head="diver: Te\u0301rn\u00a0Reef\n")
    log_write(folder, "b.csv", 7, head="diver:  T\u00e9rn   reef\n")
    if "0 dives" in run(folder, "audit", "--diver", " T\u00c9RN Reef", "--format", "json", "a.csv", expect=(0, 1, 2)).stdout:
        fail("audit --diver")
    if '"file": "a.csv"' not in run(folder, "audit", "--diver", " T\u00c9RN Reef", "--format", "json", "a.csv", expect=(0, 1, 2)).stdout:
        fail("audit --diver finds nothing")
    if "diver" in run(folder, "reconcile", "--format", "json", "a.csv", "b.csv", expect=(0, 1, 2)).stdout.split('"differences"')[1].split("]")[0]:
        fail("reconcile sees two divers")
    page = run(folder, "handover", "--diver", "T\u00e9rn reef", "a.csv", expect=(0, 1, 2))
    if "20.0 m" not in page.stdout:
        fail(f"handover: {page.stdout!r} {page.stderr!r}")


def main():
    with work() as folder:
        one_person(folder)
        told_apart(folder)
        tampered(folder)
        exported(folder)
        same_elsewhere(folder)


main()
