"""What the tests of the ledger share: running the program, making dives, reading what a ledger holds past the program.

SPDX-License-Identifier: MIT
"""
import hashlib
import os
import sqlite3
import subprocess
import sys
import tempfile
import zlib

PLIMSOLL, SAMPLES, GENERATE = (os.path.abspath(path) for path in sys.argv[1:4])
ROUNDS = int(os.environ.get("PLM_LEDGER_ROUNDS", "0"))
# Columns of figures that are numbers or tensions; program is a text that nothing holds against anything.
LEFT_OUT = ("exposure", "rules", "program")


def environment(home):
    return {"PATH": "/usr/bin:/bin", "LC_ALL": "C", "TZ": "UTC", "HOME": home}


def fail(text):
    print("FAILED:", text)
    sys.exit(1)


def run(folder, *arguments, expect=None, before=()):
    """Runs the program in a folder. A signal, or a word of a sanitizer, fails whatever was expected."""
    done = subprocess.run([*before, PLIMSOLL, *arguments], cwd=folder, env=environment(folder), stdin=subprocess.DEVNULL, capture_output=True,
                          text=True, errors="replace", timeout=300, check=False)
    if done.returncode not in (0, 1, 2, 3) or "Sanitizer" in done.stderr:
        fail(f"{arguments}: exit {done.returncode}\n{done.stderr}")
    if expect is not None and done.returncode not in expect:
        fail(f"{arguments}: exit {done.returncode}, expected {expect}\n{done.stdout}\n{done.stderr}")
    return done


def make_dives(folder, count, divers, seed=1):
    os.makedirs(folder, exist_ok=True)
    subprocess.run([GENERATE, "--many", str(count), "--divers", str(divers), "--seed", str(seed), "--interval", "20", "--out", folder], check=True)
    return folder


def work():
    return tempfile.TemporaryDirectory(prefix="plimsoll-ledger-")


def look_into(path):
    db = sqlite3.connect(path)
    db.text_factory = lambda text: text.decode("utf-8", "replace")
    return db


def figures(path):
    """Every figure to the last bit, by diver and start, and which record it stands on."""
    db = look_into(path)
    names = [row[1] for row in db.execute("PRAGMA table_info(figures)") if row[1] not in LEFT_OUT]
    rows = db.execute("SELECT d.name, e.start_utc_ms, e.duration_ms, l.sha256, r.log_index, u.text, " + ", ".join("f." + name for name in names)
                      + " FROM exposure e JOIN diver d ON d.id = e.diver JOIN record r ON r.exposure = e.id AND r.best = 1 JOIN log l ON l.id = r.log"
                      " JOIN figures f ON f.exposure = e.id JOIN rules u ON u.id = f.rules ORDER BY d.name, e.start_utc_ms").fetchall()
    db.close()
    return [tuple(value.hex() if isinstance(value, (float, bytes)) else value for value in row) for row in rows]


def counts(path):
    """Exposures, those with a best record and figures, records."""
    db = look_into(path)
    one = lambda sql: db.execute(sql).fetchone()[0]
    found = (one("SELECT count(*) FROM exposure"),
             one("SELECT count(*) FROM exposure WHERE id IN (SELECT exposure FROM record WHERE best = 1) AND id IN (SELECT exposure FROM figures)"),
             one("SELECT count(*) FROM record"))
    db.close()
    return found


def logs(path):
    """sha256 -> whether the stored bytes are those of the hash."""
    db = look_into(path)
    found = {}
    for sha256, size, packed in db.execute("SELECT sha256, size, bytes FROM log"):
        try:
            plain = zlib.decompress(packed)
        except (zlib.error, TypeError):
            plain = None
        found[sha256] = plain is not None and len(plain) == size and hashlib.sha256(plain).hexdigest() == sha256
    db.close()
    return found


def digest(path):
    with open(path, "rb") as file:
        return hashlib.sha256(file.read()).hexdigest()
