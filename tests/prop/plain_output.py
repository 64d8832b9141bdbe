"""Whatever a log, a card, an argument or a file's name says: nothing that the program writes can steer a terminal, turn the direction of
what stands beside it, forge a line, or be a formula in a table; and every format stays well formed.

usage: plain_output.py PLIMSOLL [SEED [ROUNDS]]
Sources: The Unicode Standard, general categories Cc, Zl, Zp and property Bidi_Control (PropList.txt), listed by hand below; formulas in
tables: OWASP, "CSV Injection". CSV by RFC 4180 and JSON by RFC 8259 as Python's own readers take them, HTML and UDDF by its expat and parser.
SPDX-License-Identifier: MIT
"""
import csv
import html.parser
import io
import json
import os
import pty
import random
import re
import shutil
import sqlite3
import subprocess
import sys
import tempfile
import xml.dom.minidom

PLIMSOLL = os.path.abspath(sys.argv[1])
BIDI = {0x061C, 0x200E, 0x200F, *range(0x202A, 0x202F), *range(0x2066, 0x206A)}
FORBIDDEN = {*range(0x20), *range(0x7F, 0xA0), *BIDI, 0x2028, 0x2029}
FORMULA = "=+-@\t\r"
NASTY = [b"\x1b[31m", b"\x1b]0;title\x07", b"\x9b2J", "\u009b2J".encode(), "\u202e".encode(), "\u2066".encode(), "\u2028".encode(), b"\x7f", b"\x00",
         b"\r\n", b"x\nFORGED: 0 m\n", b"\xff\xfe", b"\xc3", b"\xed\xa0\x80", b"=1+1", b"'=x", b"+1", b"-1", b"@SUM(A1)", b"\t=1", b"\\u{1b}", b"\"", b"'",
         b"<script>", b"&amp;", b"]]>", b"\xf0\x9f\x8c\x8a", "A\u030a".encode(), b" ", b";", b",", b"%s%n", b"plain", b"\x08\x08", b"\x0e", b"/..", b"#", b"["]


def fail(what):
    sys.exit(f"plain_output: {what}")


def words(rng, without=b""):
    """Some bytes that a stranger may have put there."""
    text = b"".join(rng.choice(NASTY) if rng.random() < 0.8 else bytes([rng.randrange(256)]) for _ in range(rng.randrange(1, 5)))
    return bytes(byte for byte in text if byte not in without)


def quoted(text):
    return b'"' + text.replace(b'"', b'""') + b'"'


def markup(text):
    for one, other in ((b"&", b"&amp;"), (b"<", b"&lt;"), (b'"', b"&quot;")):
        text = text.replace(one, other)
    return text.replace(b"]]>", b"]]&gt;")


def table(rng):
    facts = b"".join(quoted(key + b": " + words(rng)) + b"\n" for key in (b"diver", b"recorder", b"site", b"notes", b"dive number", b"mix"))
    rows = b"".join(b"%d,%.1f,%s\n" % (t * 30, depth, quoted(words(rng)) if rng.random() < 0.1 else b"open")
                    for t, depth in enumerate((0, 10, 20, 30, 30, 30, 20, 5, 0)))
    return facts + b"start: 2031-05-04 09:%02d+11:00\n" % rng.randrange(60) + b"time_s,depth_m,mode\n" + rows


def uddf(rng):
    name = lambda: markup(words(rng))
    way = b"".join(b"<waypoint><depth>%d</depth><divetime>%d</divetime><alarm>%s</alarm><setmarker>%s</setmarker></waypoint>" %
                   (depth, t * 60, name(), name()) for t, depth in enumerate((0, 30, 40, 40, 20, 5, 0)))
    return (b'<uddf version="3.2.0"><generator><name>%s</name></generator><diver><owner id="o"><personal><firstname>%s</firstname><lastname>%s'
            b'</lastname></personal><equipment><divecomputer id="c"><name>%s</name><model>%s</model></divecomputer></equipment></owner></diver>'
            b'<divesite><site id="s"><name>%s</name></site></divesite><gasdefinitions><mix id="m"><name>%s</name><o2>0.21</o2><he>0</he></mix>'
            b'</gasdefinitions><profiledata><repetitiongroup id="g"><dive id="d"><informationbeforedive><link ref="s"/><link ref="o"/><divenumber>%s'
            b'</divenumber><datetime>2031-05-04T13:%02d:00+11:00</datetime></informationbeforedive><samples>%s</samples><informationafterdive><notes><para>%s'
            b'</para></notes></informationafterdive></dive></repetitiongroup></profiledata></uddf>' %
            (name(), name(), name(), name(), name(), name(), name(), name(), rng.randrange(60), way, name()))


def card(rng):
    line = lambda key: key + b" = " + words(rng, b"\n") + b"\n"
    return b"[dive]\n" + line(b"diver") + line(b"site") + line(b"recorder") + rng.choice((line(words(rng, b"\n")[:40]), b"[mixes]\n" + line(b"back") + line(b"deco")))


class Pages(html.parser.HTMLParser):
    def handle_starttag(self, tag, attributes):
        if tag == "script" and attributes:
            fail(f"a script: {attributes}")


def plain(what, text, allowed="\n"):
    bad = sorted({ord(letter) for letter in text if ord(letter) in FORBIDDEN} - {ord(letter) for letter in allowed})
    if bad:
        at = next(i for i, letter in enumerate(text) if ord(letter) == bad[0])
        fail(f"{what}: U+{bad[0]:04X} in {text[max(0, at - 60):at + 60]!r}")
    forged = ("\n" + text).find("\nFORGED") if "\t" not in allowed else -1   # markup has no lines
    if forged >= 0:
        fail(f"{what}: a forged line in {text[max(0, forged - 80):forged + 80]!r}")


def is_number(cell):
    try:
        float(cell)
        return True
    except ValueError:
        return False


def table_held(what, text):
    plain(what, text)
    for line in csv.reader(io.StringIO(text), strict=True):
        for cell in line:
            if cell[:1] in set(FORMULA) and not is_number(cell):
                fail(f"{what}: a formula in {line}")


def objects_held(what, text):
    plain(what, text)
    for line in text.splitlines() if what.endswith("jsonl") else [text]:
        if line:
            json.loads(line)


def page_held(what, text):
    plain(what, text, "\n\t")
    Pages().feed(text)


def log_held(what, text):
    plain(what, text, "\n\t")
    if text:
        xml.dom.minidom.parseString(text)


HELD = {"text": plain, "csv": table_held, "json": objects_held, "jsonl": objects_held, "html": page_held, "uddf": log_held}


DIVES = 0


def run(folder, form, *arguments):
    done = subprocess.run([PLIMSOLL, *arguments], cwd=folder, capture_output=True, stdin=subprocess.DEVNULL, timeout=300,
                          env={"HOME": folder, "PATH": "/usr/bin:/bin"})
    what = f"{arguments} {form}"
    if done.returncode not in (0, 1, 2, 3) or b"Sanitizer" in done.stderr or b"runtime error" in done.stderr:
        fail(f"{what}: status {done.returncode}, {done.stderr[-1500:]!r}")
    try:
        out, err = done.stdout.decode(), done.stderr.decode()
    except UnicodeDecodeError as error:
        fail(f"{what}: no UTF-8, {error}, {error.object[max(0, error.start - 60):error.start + 60]!r}")
    plain(f"{what}, diagnostics", err)
    global DIVES
    DIVES += arguments[0] == "export" and len(out) > 0
    HELD[form](what, out)
    return done


def terminal_held(folder, *arguments):
    """The same at a terminal, where our own colours pass and nothing else."""
    ours, theirs = pty.openpty()
    with subprocess.Popen([PLIMSOLL, *arguments], cwd=folder, stdin=theirs, stdout=theirs, stderr=theirs,
                          env={"HOME": folder, "PATH": "/usr/bin:/bin", "LC_ALL": "C.UTF-8"}):
        os.close(theirs)
        said = b""
        while True:
            try:
                piece = os.read(ours, 65536)
            except OSError:   # the other end is closed
                break
            if not piece:
                break
            said += piece
    os.close(ours)
    # A terminal begins lines with CR of its own, and the line of progress erases itself with it.
    text = re.sub(r"\r *\r", "", said.decode().replace("\r\n", "\n"))
    plain(f"{arguments} at a terminal", re.sub("\x1b\\[(0|1|1;38;5;166|38;5;214|38;5;74|0;1|0;38;5;36)m", "", text))


def logs_made(rng, folder):
    logs = []
    for ending, make in ((b".csv", table), (b".uddf", uddf)):
        name = b"log-" + words(rng, b"\x00/")[:60]
        with open(os.path.join(folder.encode(), name + ending), "wb") as file:
            file.write(make(rng))
        if rng.random() < 0.5:
            with open(os.path.join(folder.encode(), name + b".card"), "wb") as file:
                file.write(card(rng))
        logs.append(name + ending)
    return logs


def tampered_held(rng, folder):
    """A ledger whose texts somebody has changed by hand."""
    db = sqlite3.connect(os.path.join(folder, "l"))
    if not db.execute("SELECT count(*) FROM sqlite_master WHERE name = 'log'").fetchone()[0]:
        db.close()
        return
    for change in ("log SET name", "rules SET text", "record SET recorder", "record SET card", "record SET told_diver", "figures SET program", "figures SET worst",
                   "diver SET name"):
        if rng.random() < 0.5:
            for row, in db.execute(f"SELECT rowid FROM {change.split()[0]}" if "record" not in change else "SELECT 0").fetchall():
                where = "" if "record" in change else f" WHERE rowid = {row}"
                try:
                    db.execute(f"UPDATE {change} = CAST(? AS TEXT){where}", (words(rng, b"\x00"),))
                except sqlite3.IntegrityError:
                    pass
    db.commit()
    db.close()
    for form in ("text", "csv", "json"):
        done = run(folder, form, "ledger", "list", "--ledger", "l", "--format", form)
    divers = re.findall('"diver": "([^"\\\\]*)"', done.stdout.decode())
    for diver in divers[:2]:
        for form in ("text", "csv", "json", "html"):
            run(folder, form, "ledger", "show", "--ledger", "l", "--format", form, diver)
        for form in ("text", "csv", "json"):
            run(folder, form, "ledger", "due", "--ledger", "l", "--at", "2031-05-05T09:00+00:00", "--format", form, diver)
    for arguments in (("check", "--recompute"), ("export", "tampered"), ("export", "--to", "logs", "tampered-logs"), ("remove", "--yes", "1")):
        run(folder, "text", "ledger", arguments[0], "--ledger", "l", *arguments[1:])


def files_held(folder):
    """Pages, tables and logs that were written into folders."""
    for base, _, names in os.walk(folder):
        for name in names:
            form = name.rsplit(".", 1)[-1]
            if form in ("html", "csv", "uddf"):
                with open(os.path.join(base, name), encoding="utf-8", newline="") as file:
                    HELD[form](f"{base}/{name}", file.read())


def round_held(rng, folder):
    logs, junk = logs_made(rng, folder), words(rng, b"\x00")
    with open(os.path.join(folder.encode(), b"rules-" + words(rng, b"\x00/")[:30]), "wb") as file:
        file.write(b"gf_low_pct = 30\n" + words(rng, b"\x00"))
        rules = os.path.basename(file.name)
    with open(os.path.join(folder.encode(), b"card"), "wb") as file:
        file.write(card(rng))
    for log in logs:
        for form in ("text", "csv", "json", "html"):
            run(folder, form, "debrief", "--format", form, log)
        run(folder, "text", "debrief", "--verbose", "--card", "card", "--rules", rules, log)
        run(folder, "csv", "debrief", "--findings", "csv", log)
        for form in ("csv", "jsonl"):
            run(folder, form, "trace", "--no-schedule", "--format", form, log)
        for form in ("text", "html"):
            run(folder, form, "handover", "--format", form, log)
        for form in ("csv", "uddf"):
            run(folder, form, "export", "--to", form, log)
        run(folder, "text", "formats", log)
        terminal_held(folder, "debrief", log)
    for form in ("text", "json"):
        run(folder, form, "reconcile", "--format", form, "--merge", b"merged-" + junk.replace(b"/", b"_")[:40] + b".uddf", *logs)
        run(folder, form, "reconcile", "--format", form, *logs)
    for form in ("text", "csv", "json", "html"):
        run(folder, form, "audit", "--format", form, ".")
    run(folder, "text", "ledger", "add", "--ledger", "l", ".")
    run(folder, "text", "ledger", "add", "--ledger", "l", "--diver", junk, logs[0])
    divers = sorted({row["diver"] for row in csv.DictReader(io.StringIO(run(folder, "csv", "ledger", "list", "--ledger", "l", "--format", "csv").stdout.decode()))})
    for form in ("text", "csv", "json"):
        run(folder, form, "ledger", "list", "--ledger", "l", "--format", form)
        for diver in (junk, *divers):
            run(folder, form, "ledger", "show", "--ledger", "l", "--format", form, diver)
            run(folder, form, "ledger", "due", "--ledger", "l", "--at", "2031-05-05T09:00", "--format", form, diver)
    for log in logs:
        run(folder, "text", "debrief", "--ledger", "l", log)
        run(folder, "text", "debrief", "--write-edited", "edited", log)
        run(folder, "text", "debrief", "--plan", log, log)
        run(folder, "text", "handover", "--ledger", "l", log)
    run(folder, "text", "audit", "--format", "html", "--ledger", "l", "-o", "pages", ".")
    terminal_held(folder, "audit", ".")
    terminal_held(folder, "ledger", "list", "--ledger", "l")
    for arguments in (("ledger", "check", "--ledger", "l", "--recompute"), ("ledger", "export", "--ledger", "l", "out"), ("explain", junk), ("rules", "--rules", rules),
                      (junk,), ("ledger", junk), ("debrief", b"--" + junk), ("debrief", "--gf", junk, logs[0]), ("debrief", b"none-" + junk),
                      ("debrief", "-o", b"no-folder/" + junk, logs[0]), ("ledger", "list", "--ledger", b"none-" + junk), ("ledger", "remove", "--ledger", "l", junk)):
        run(folder, "text", *arguments)
    tampered_held(rng, folder)
    for written in ("pages", "out", "tampered", "edited"):
        files_held(os.path.join(folder, written))


def main():
    seed = int(sys.argv[2]) if len(sys.argv) > 2 else 20310506
    rounds = int(sys.argv[3]) if len(sys.argv) > 3 else int(os.environ.get("PLM_PROP_ROUNDS", "6"))
    print(f"seed {seed}", flush=True)
    for number in range(rounds):
        rng = random.Random(f"{seed}/{number}")
        folder = tempfile.mkdtemp()
        try:
            round_held(rng, folder)
        finally:
            shutil.rmtree(folder)
    print(f"{rounds} rounds held, {DIVES} logs of dives written anew")
    if rounds >= 4 and DIVES == 0:
        fail("no log was understood at all")


main()
