"""What the tests of rough treatment share: running the program as a shell does, and running the cases of a script.

usage of a script: SCRIPT PLIMSOLL SAMPLES
SPDX-License-Identifier: MIT
"""
import os
import shutil
import subprocess
import sys
import tempfile

PLIMSOLL, SAMPLES = (os.path.abspath(path) for path in sys.argv[1:3])
# Long enough for any run under the sanitizers: whatever takes longer waits for something that does not come.
HANG_S = 120
# Of a failure; a whole report would hide what is wrong with it.
TOLD_MOST = 1500


class Failed(Exception):
    """A case does not hold; its text says what was seen."""


def hold(what, seen, expected):
    if seen != expected:
        raise Failed(f"{what}: {seen!r}, expected {expected!r}")


def hold_in(what, text, whole):
    if text not in whole:
        raise Failed(f"{what}: {text!r} is not in\n{whole}")


def environment(folder):
    return {"PATH": "/usr/bin:/bin", "LC_ALL": "C", "TZ": "UTC", "HOME": folder}


def sample(folder, name, to=None):
    """A copy of a sample in the folder. Returns its path."""
    return shutil.copy(os.path.join(SAMPLES, name), os.path.join(folder, to or os.path.basename(name)))


def finished(arguments, done, expect):
    """Fails a run that crashed, spoke of a sanitizer, or ended with another exit status than expected (one, or several; None: any)."""
    said = done.stderr or ""
    if "Sanitizer" in said or "runtime error" in said:
        raise Failed(f"{arguments}: {said}")
    known = (0, 1, 2, 3) if expect is None else (expect,) if isinstance(expect, int) else expect
    if done.returncode not in known:
        raise Failed(f"{arguments}: exit {done.returncode}, expected {known}\n{done.stdout}\n{said}")
    return done


def run(folder, *arguments, expect=None, before=(), **more):
    """Runs the program in a folder; before: the words of a command that starts it. Standard input is empty unless told."""
    options = {"stdin": subprocess.DEVNULL, "stdout": subprocess.PIPE, "stderr": subprocess.PIPE} | more
    try:
        done = subprocess.run([*before, PLIMSOLL, *arguments], cwd=folder, env=environment(folder), text=True, errors="replace", timeout=HANG_S,
                              check=False, **options)
    except subprocess.TimeoutExpired as slow:
        raise Failed(f"{arguments}: hangs") from slow
    return finished(arguments, done, expect)


def shell(folder, line, *arguments, expect=None):
    """Runs a line of the shell, in which "$PLIMSOLL" is the program and "$@" are the arguments."""
    try:
        done = subprocess.run(["/bin/sh", "-c", line, "sh", *arguments], cwd=folder, env=environment(folder) | {"PLIMSOLL": PLIMSOLL}, text=True,
                              errors="replace", stdin=subprocess.DEVNULL, capture_output=True, timeout=HANG_S, check=False)
    except subprocess.TimeoutExpired as slow:
        raise Failed(f"{line}: hangs") from slow
    return finished(line, done, expect)


def names(folder):
    """Everything in a folder, hidden files too."""
    return sorted(os.listdir(folder))


def content(folder, name):
    with open(os.path.join(folder, name), "rb") as file:
        return file.read()


def main(cases):
    """Runs every function test_* of a script, given its globals(). A word after the samples runs those with this word in their name."""
    chosen = [(name, case) for name, case in cases.items() if name.startswith("test_") and all(word in name for word in sys.argv[3:])]
    wrong = 0
    for name, case in chosen:
        with tempfile.TemporaryDirectory(prefix="plimsoll-rough-") as folder:
            try:
                case(folder)
                print(f"holds:  {name}")
            except (Failed, OSError) as failed:
                wrong += 1
                print(f"FAILED: {name}: {str(failed)[:TOLD_MOST]}")
    print(f"{len(chosen)} cases, {wrong} failed")
    sys.exit(1 if wrong or not chosen else 0)
