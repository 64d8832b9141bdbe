"""Ledgers that a stranger wrote: foreign tables, triggers, views, logs that inflate without end, values at the ends of their types, and seeded
random ones in every column. Nothing crashes, hangs or overflows; what is planted is told with the dive and the field, and `check` ends with 2.

usage: hostile.py PLIMSOLL SAMPLES GENERATE
SPDX-License-Identifier: MIT
"""
import hashlib
import os
import random
import shutil
import sqlite3
import struct
import zlib

from rough import ROUNDS, SAMPLES, fail, make_dives, run, work

DIVER = "diver 001"
COMMANDS = (("check", "--recompute"), ("list", "--format", "csv"), ("list", "--format", "json"), ("list",), ("show", DIVER),
            ("show", DIVER, "--format", "json"), ("due", DIVER, "--at", "2031-01-03T20:00Z"), ("export", "--to", "csv", DIVER))
TABLES = ("diver", "log", "rules", "exposure", "record", "figures")
FOREIGN = {
    "a table": "CREATE TABLE other (a)",
    "a trigger": "CREATE TRIGGER t AFTER INSERT ON exposure BEGIN DELETE FROM log; END",
    "a view": "CREATE VIEW v AS SELECT 1",
    "an index": "CREATE INDEX other ON figures (otu)",
    "a column": "ALTER TABLE figures ADD COLUMN other TEXT",
    "a view in place of a table": "ALTER TABLE rules RENAME TO rules2; CREATE VIEW rules AS SELECT * FROM rules2",
    "statistics": "ANALYZE",
    "a virtual table": "CREATE VIRTUAL TABLE f USING fts5 (a)",
}
ENDS = (-2**63, -2**63 + 1, -2**31 - 1, -2**31, -1, 2**31 - 1, 2**31, 2**53, 2**63 - 1)
# What each field cannot be: table, column, values that the types of SQLite allow.
FIELDS = (
    *(("exposure", name, ENDS[:2] + ENDS[-1:]) for name in ("start_utc_ms", "duration_ms", "wet_from_ms", "wet_to_ms")),
    ("exposure", "offset_min", tuple(end for end in ENDS if abs(end) > 1080) + (1081, -1081, 1441)),
    *(("record", name, ENDS[:2] + ENDS[-1:]) for name in ("start_utc_ms", "duration_ms", "wet_from_ms", "wet_to_ms")),
    ("record", "offset_min", (-2**31, 2**31, -2**63, 2**63 - 1)), ("record", "log_index", (-2**63, -1, 0, 2**31, 2**63 - 1)), ("record", "cells", (-1, 2**31, 2**63 - 1)),
    ("record", "covered_s", (float("inf"), -1e300)), ("record", "step_s", (float("inf"), 1e300)),
    *(("record", name, (float("inf"), float("-inf"), 1e300)) for name in ("told_surface_bar", "told_altitude_m", "told_water_kg_m3", "told_interval_s")),
    *(("figures", name, (-1, 2**31, 2**63 - 1, -2**63)) for name in ("serious", "caution", "note", "otu_run_days")),
    *(("figures", name, (float("inf"), float("-inf"), 1e300, -1e300))
      for name in ("surface_bar", "max_depth_m", "mean_depth_m", "surfacing_gradient_pct", "max_po2_bar", "owed_min", "cns_pct", "cns_day_pct", "otu", "esot",
                   "surface_interval_s", "cns_start_pct", "cns_day_before_pct", "otu_before", "esot_before", "otu_run", "start_anchor_bar", "end_anchor_bar")),
    *(("figures", name, (b"", b"\0" * 255, b"\0" * 257, struct.pack("<32d", *[float("nan")] * 32), struct.pack("<32d", *[1e300] * 32)))
      for name in ("start_bar", "end_bar")),
    ("log", "size", (2**32, 2**63 - 1, 0)), ("log", "bytes", (b"", b"\0", zlib.compress(b"\0" * 1000))), ("log", "sha256", ("0" * 64,)),
)


def change(path, *statements):
    """Changes a ledger past the program: checks and foreign keys off."""
    db = sqlite3.connect(path, isolation_level=None)
    db.execute("PRAGMA ignore_check_constraints = ON")
    for sql, values in statements:
        if values is None:
            db.executescript(sql)
        else:
            db.execute(sql, values)
    db.close()


def loosen(path):
    """Takes STRICT and the checks out of the schema, so that every column takes every type; gives what puts the schema back."""
    db = sqlite3.connect(path, isolation_level=None)
    before = db.execute("SELECT name, sql FROM sqlite_schema WHERE type = 'table' AND sql LIKE '%STRICT%'").fetchall()
    db.execute("PRAGMA writable_schema = ON")
    for name, sql in before:
        db.execute("UPDATE sqlite_schema SET sql = ? WHERE name = ?", (sql.replace(") STRICT, WITHOUT", ") WITHOUT").replace(") STRICT", ")"), name))
    db.close()
    return [("PRAGMA writable_schema = ON", None), *(("UPDATE sqlite_schema SET sql = ? WHERE name = ?", (sql, name)) for name, sql in before)]


def fresh(folder):
    for name in ("l", "l-wal", "l-shm"):
        if os.path.exists(os.path.join(folder, name)):
            os.remove(os.path.join(folder, name))
    return shutil.copy(os.path.join(folder, "whole"), os.path.join(folder, "l"))


def all_commands(folder, what, others=COMMANDS[1:]):
    """check, and other commands, over a ledger. Returns: what check said; fails where it found nothing."""
    said = run(folder, "ledger", *COMMANDS[0], "--ledger", "l")
    if said.returncode != 2 or said.stderr == "":
        fail(f"{what}: check ends with {said.returncode}\n{said.stderr}")
    for command in others:
        done = run(folder, "ledger", *command, "--ledger", "l")
        if done.returncode != 0 and done.stderr == "":
            fail(f"{what}: {command} fails without a word")
    return said.stderr


def foreign(folder):
    for what, sql in FOREIGN.items():
        path = fresh(folder)
        try:
            change(path, (sql, None))
        except sqlite3.OperationalError:
            continue   # this SQLite has no such kind
        before = open(path, "rb").read()
        for command in (*COMMANDS, ("add", "dives")):
            said = run(folder, "ledger", *command, "--ledger", "l", expect=(2,) if command[0] == "check" else (2, 3))
            if "its tables are not those of a ledger" not in said.stderr:
                fail(f"{what}: {command}: {said.stderr}")
        if open(path, "rb").read() != before:
            fail(f"{what}: the file was changed")


def inflating(folder):
    """A log that is larger than the rule file_max_mb (512 MB), with the right size and hash, and with sizes that are not its own: none is inflated."""
    blocks, block = 520, b"\0" * 2**20
    packer, digest, packed = zlib.compressobj(1), hashlib.sha256(), b""
    for _ in range(blocks):
        packed += packer.compress(block)
        digest.update(block)
    packed, digest = packed + packer.flush(), digest.hexdigest()
    for size, word in ((blocks * 2**20, "larger than 512 MB"), (2**30 - 2**28, "larger than 512 MB"), (2**32 - 1, "does not match"), (2**62, "does not match"), (5, "does not match")):
        path = fresh(folder)
        change(path, ("UPDATE log SET sha256 = ?, size = ?, bytes = ? WHERE id = 1", (digest, size, packed)))
        said = run(folder, "ledger", "check", "--ledger", "l", expect=(2,)).stderr
        if digest[:12] not in said or word not in said:
            fail(f"a log of {size} bytes is not told: {said}")
        all_commands(folder, f"a log of {size} bytes")


def planted(folder):
    rounds = 0
    for table, column, values in FIELDS:
        for value in values:
            path = fresh(folder)
            order = {"exposure": "id", "figures": "exposure", "log": "id", "record": "exposure"}[table]
            change(path, (f"UPDATE {table} SET {column} = ? WHERE {order} = (SELECT min({order}) FROM {table})", (value,)))
            # One after the other over the values; with more rounds all of them over each.
            others = COMMANDS[1:] if ROUNDS else (COMMANDS[1 + rounds % (len(COMMANDS) - 1)],)
            said = all_commands(folder, f"{table}.{column} = {value!r}", others)
            named = column if table != "log" else "log"
            if named not in said or (table != "log" and "dive " not in said):
                fail(f"{table}.{column} = {value!r}: check does not name it: {said}")
            rounds += 1
    return rounds


def any_value(numbers):
    return numbers.choice((
        lambda: None, lambda: numbers.choice(ENDS), lambda: numbers.getrandbits(63) * numbers.choice((-1, 1)), lambda: numbers.randrange(-3, 4),
        lambda: numbers.choice((float("inf"), float("-inf"), 1e308, -1e308, 5e-324, -0.0)), lambda: struct.unpack("<d", numbers.randbytes(8))[0],
        lambda: numbers.randbytes(numbers.choice((0, 1, 255, 256, 257, 5000))), lambda: "\x1b[2J\u202e" * numbers.randrange(4), lambda: "a\0b",
        lambda: "x" * numbers.choice((1, 300, 70000)), lambda: "1e999", lambda: "9" * 40))()


def anything(folder, seed):
    """One to four cells of any column with any value of any type."""
    numbers = random.Random(seed)
    path = fresh(folder)
    back = loosen(path) if seed % 2 else []
    db = sqlite3.connect(path, isolation_level=None)
    db.execute("PRAGMA ignore_check_constraints = ON")
    told = []
    for _ in range(numbers.randrange(1, 5)):
        table = numbers.choice(TABLES)
        column = numbers.choice([row[1] for row in db.execute(f"PRAGMA table_info({table})")])
        value = any_value(numbers)
        order = {"record": "exposure", "figures": "exposure"}.get(table, "id")
        try:
            db.execute(f"UPDATE {table} SET {column} = ? WHERE {order} = (SELECT min({order}) FROM {table})", (value,))
            told.append((table, column, value))
        except sqlite3.Error:
            continue   # of another type than a strict table takes, or twice where once is allowed
    db.close()
    if back:
        change(path, *back)
    for command in COMMANDS:
        done = run(folder, "ledger", *command, "--ledger", "l")
        if done.returncode != 0 and done.stderr == "":
            fail(f"seed {seed}, {told}: {command} fails without a word")
    run(folder, "ledger", "add", "--ledger", "l", os.path.join(SAMPLES, "expedition/day-1/tern-handset.uddf"))
    run(folder, "ledger", "add", "--ledger", "l", "more")


def main():
    with work() as folder:
        make_dives(os.path.join(folder, "dives"), 3, 1)
        make_dives(os.path.join(folder, "more"), 1, 1, seed=9)
        run(folder, "ledger", "add", "--ledger", "whole", "dives", expect=(0,))
        foreign(folder)
        inflating(folder)
        rounds = planted(folder)
        seeds = ROUNDS or 20
        for seed in range(seeds):
            anything(folder, seed)
        print(f"{len(FOREIGN)} foreign schemas, {rounds} planted values, {seeds} random ledgers")


main()
