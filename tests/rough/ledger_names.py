"""What is named as a ledger is a plain file: names that are special to SQLite, and things that are no files.

Source of the names: https://sqlite.org/inmemorydb.html and https://sqlite.org/uri.html.

SPDX-License-Identifier: MIT
"""
import os
import socket

from program import content, hold, hold_in, main, names, run, sample

TOLD = ("--diver", "Tern", "--start", "2031-05-06T09:30+11:00", "lagoon-nitrox.csv")


def add(folder, ledger, expect, **more):
    return run(folder, "ledger", "add", "--ledger", ledger, *TOLD, expect=expect, **more)


def test_memory_is_refused(folder):
    sample(folder, "lagoon-nitrox.csv")
    for command in ("add", "list", "check"):
        more = TOLD if command == "add" else ()
        done = run(folder, "ledger", command, "--ledger", ":memory:", *more, expect=3)
        hold_in(command, ":memory:", done.stderr)
        hold(f"{command}: nothing is said to be added", done.stdout, "")
    hold("files", names(folder), ["lagoon-nitrox.csv"])
    add(folder, "./:memory:", 0)
    hold("a file of that name", names(folder), [":memory:", "lagoon-nitrox.csv"])


def test_memory_is_refused_from_the_environment(folder):
    sample(folder, "lagoon-nitrox.csv")
    done = run(folder, "ledger", "add", *TOLD, expect=3, before=("/usr/bin/env", "PLIMSOLL_LEDGER=:memory:"))
    hold_in("the refusal", ":memory:", done.stderr)


def test_memory_is_refused_beside_a_debrief(folder):
    sample(folder, "lagoon-nitrox.csv")
    for command in ("debrief", "handover", "audit"):
        done = run(folder, command, "--ledger", ":memory:", "lagoon-nitrox.csv", expect=3)
        hold_in(command, ":memory:", done.stderr)


def test_empty_name_is_refused(folder):
    sample(folder, "lagoon-nitrox.csv")
    done = add(folder, "", 3)
    hold("nothing is said to be added", done.stdout, "")
    hold("files", names(folder), ["lagoon-nitrox.csv"])


def test_uri_is_a_plain_name(folder):
    sample(folder, "lagoon-nitrox.csv")
    for name in ("file:l?mode=memory", "file::memory:", "file:l?vfs=none"):
        add(folder, name, 0)
        hold(f"a file named {name}", content(folder, name)[:15], b"SQLite format 3")
        hold_in("its dive", "Tern", run(folder, "ledger", "list", "--ledger", name, expect=0).stdout)
        os.remove(f"{folder}/{name}")
    hold("files", names(folder), ["lagoon-nitrox.csv"])


def test_no_file_is_refused(folder):
    sample(folder, "lagoon-nitrox.csv")
    os.mkfifo(f"{folder}/fifo")
    os.mkdir(f"{folder}/folder")
    os.symlink("fifo", f"{folder}/link")
    with socket.socket(socket.AF_UNIX) as made:
        made.bind(f"{folder}/socket")
    for name in ("fifo", "folder", "link", "socket", "/dev/null", "/dev/zero"):
        hold_in(name, f"{name}: error: ", add(folder, name, 3).stderr)
        run(folder, "ledger", "list", "--ledger", name, expect=3)


main(globals())
