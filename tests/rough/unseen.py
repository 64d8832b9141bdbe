"""What a search could not look at is named, and makes the exit status 2: a log may lie there.

SPDX-License-Identifier: MIT
"""
import csv
import io
import json
import os
import socket

from program import hold, hold_in, main, run, sample

LOG = "lagoon-nitrox.csv"
AUDIT = ("audit",)
ADD = ("ledger", "add", "--ledger", "l", "--diver", "Tern", "--start", "2031-05-06T09:30+11:00")


def searched(folder):
    os.makedirs(f"{folder}/logs/day")
    sample(folder, LOG, "logs/a.csv")
    return f"{folder}/logs"


def named(folder, name, before=()):
    """The search of the folder logs names this below it, and still finds the log."""
    for command in (AUDIT, ADD):
        done = run(folder, *command, "logs", expect=2, before=before)
        hold_in(f"{command}", f"logs/{name}: error: ", done.stderr)
        hold_in(f"{command}: the log", "1 record in 1 file" if command == AUDIT else "a.csv", done.stdout)


def test_nothing_unseen(folder):
    searched(folder)
    for command in (AUDIT, ADD):
        hold("what is said", run(folder, *command, "logs", expect=0).stderr, "")


def test_links_that_lead_nowhere(folder):
    os.symlink("nowhere", f"{searched(folder)}/day/dangling")
    named(folder, "day/dangling")
    os.remove(f"{folder}/logs/day/dangling")
    os.symlink("loop", f"{folder}/logs/day/loop")
    named(folder, "day/loop")


def test_no_files(folder):
    os.mkfifo(f"{searched(folder)}/day/fifo")
    named(folder, "day/fifo")
    os.remove(f"{folder}/logs/day/fifo")
    with socket.socket(socket.AF_UNIX) as made:
        made.bind(f"{folder}/logs/day/socket")
    named(folder, "day/socket")
    os.remove(f"{folder}/logs/day/socket")
    os.symlink("/dev/null", f"{folder}/logs/day/device")
    named(folder, "day/device")


def test_links_to_folders(folder):
    os.symlink("..", f"{searched(folder)}/day/up")
    for command in (AUDIT, ADD):
        hold("a folder that is searched anyhow", run(folder, *command, "logs", expect=0).stderr, "")
    os.mkdir(f"{folder}/other")
    os.symlink("../../other", f"{folder}/logs/day/out")
    named(folder, "day/out")


def test_too_deep(folder):
    path = searched(folder)
    for _ in range(70):
        path += "/d"
        os.mkdir(path)
    named(folder, "/".join(["d"] * 64))


def test_path_too_long(folder):
    here, name = searched(folder), "n" * 250
    back = os.getcwd()
    os.chdir(here)
    for _ in range(20):
        os.mkdir(name)
        os.chdir(name)
    os.chdir(back)
    for command in (AUDIT, ADD):
        done = run(folder, *command, "logs", expect=2)
        hold_in(f"{command}", "error: cannot be read: the name is too long", done.stderr)
    # Not by its path: rmtree of the case's folder goes down by descriptors.


def test_unreadable_folder(folder):
    searched(folder)
    os.chmod(f"{folder}/logs/day", 0)
    as_other = ()
    if os.getuid() == 0:
        as_other = ("/usr/bin/setpriv", "--reuid=65534", "--regid=65534", "--clear-groups")
        os.chown(folder, 65534, 65534)
        if run(folder, "--version", before=as_other, expect=None).returncode != 0:
            print("        another user cannot run the program")
            return
    named(folder, "day", before=as_other)
    os.chmod(f"{folder}/logs/day", 0o700)


def test_named_paths(folder):
    os.mkfifo(f"{folder}/fifo")
    os.symlink("nowhere", f"{folder}/dangling")
    for name in ("fifo", "dangling", "missing"):
        hold_in(name, f"{name}: error: ", run(folder, *AUDIT, name, expect=2).stderr)
    for name in ("dangling", "missing"):
        hold_in(name, f"{name}: error: ", run(folder, *ADD, name, expect=2).stderr)


def test_table_tells_what_was_not_used(folder):
    searched(folder)
    os.symlink("nowhere", f"{folder}/logs/dangling")
    with open(f"{folder}/logs/cut.uddf", "w", encoding="ascii") as cut, open(sample(folder, "outer-wall.uddf"), encoding="utf-8") as whole:
        cut.write(whole.read()[:6000])
    done = run(folder, "audit", "--format", "csv", "logs", expect=2)
    rows = list(csv.DictReader(io.StringIO(done.stdout)))
    told = {row["file"]: row["trouble"] for row in rows if row["trouble"]}
    hold("files with trouble", sorted(told), ["logs/cut.uddf", "logs/dangling"])
    for name, text in told.items():
        hold_in("standard error", text, done.stderr)
        hold_in("the row", "error: ", text)
    hold("rows without trouble", [row["file"] for row in rows if not row["trouble"]].count("logs/a.csv"), 1)


def test_log_used_in_part(folder):
    os.makedirs(f"{folder}/logs")
    sample(folder, LOG, "logs/a.csv")
    with open(f"{folder}/logs/b.csv", "w", encoding="ascii") as table:
        table.write("time (s),depth (m)\n0,0\n60,20\n120,twenty\n180,20\n600,5\n660,0\n")
    told = "logs/b.csv:4:5: warning: "
    hold_in("debrief", told, run(folder, "debrief", "--fail-on", "never", "logs/b.csv", expect=2).stderr)
    hold_in("ledger add", told, run(folder, *ADD, "logs", expect=2).stderr)
    hold_in("on standard error", told, run(folder, *AUDIT, "--fail-on", "never", "logs", expect=2).stderr)
    hold_in("in text", "used in part", run(folder, *AUDIT, "logs", expect=2).stdout)
    hold_in("in html", "used in part", run(folder, *AUDIT, "--format", "html", "logs", expect=2).stdout)
    table = csv.DictReader(io.StringIO(run(folder, *AUDIT, "--format", "csv", "logs", expect=2).stdout))
    rows = [(row["file"], row["trouble"][:len(told)]) for row in table if row["trouble"]]
    hold("rows", rows, [("logs/b.csv", told)])
    (part,) = json.loads(run(folder, *AUDIT, "--format", "json", "logs", expect=2).stdout)["troubles"]
    hold("in json", (part["file"], part["used_in_part"]), ("logs/b.csv", True))


main(globals())
