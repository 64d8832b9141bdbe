"""Fails where --help and plimsoll(1) do not name the same options with the same words. usage: options.py ROOT PLIMSOLL

In --help, options stand under headings. In the manual those of "The answer" stand under the command's own .Ss,
those of any other heading under a .Ss of that name.
SPDX-License-Identifier: MIT
"""
import os
import re
import subprocess
import sys

from house import Report

OPTION = re.compile(r"^  (?:-(\w), )?--([\w-]+)(?: (\S+))?$")
ITEM = re.compile(r"^\.It (?:Fl (\w) , )?Fl -([\w-]+)(?: Ar (\S+))?$")


def plain(words):
    """Words as --help and the manual must agree on them: first letter and full stop aside."""
    text = " ".join(" ".join(words).split())
    return text[:1].lower() + text[1:].rstrip(".")


def run(plimsoll, *arguments):
    return subprocess.run([plimsoll, *arguments], check=True, capture_output=True, text=True).stdout.splitlines()


def commands(plimsoll):
    """Names of commands: the lines of the program's --help that start with two blanks and a name; behind each those of its own --help
    that start with its name and a second word."""
    names = [m.group(1) for m in (re.match(r"^  ([a-z]+)( |$)", line) for line in run(plimsoll, "--help"))
             if m and m.group(1) != "plimsoll"]
    for name in names:
        yield name
        for match in (re.match(rf"^  ({name} [a-z]+)( |$)", line) for line in run(plimsoll, name, "--help")):
            if match:
                yield match.group(1)


def help_options(plimsoll, command):
    """heading -> {(letter, name, argument): words} of a command's --help."""
    found, heading, words = {}, None, None
    for line in run(plimsoll, *command.split(), "--help"):
        match = OPTION.match(line)
        if line.endswith(":") and not line.startswith(" "):
            heading = found.setdefault(line[:-1], {})
        elif match and heading is not None:
            words = heading.setdefault(match.groups(), [])
        elif line.startswith("        ") and words is not None:
            words.append(line)
    return {name: {option: plain(text) for option, text in rows.items()} for name, rows in found.items()}


def manual_options(path):
    """.Ss -> {(letter, name, argument): words} of the manual."""
    found, section, words = {}, None, None
    for line in open(path, encoding="utf-8").read().splitlines():
        match = ITEM.match(line)
        if line.startswith((".Ss ", ".Sh ")):
            section, words = found.setdefault(line[4:], {}), None
        elif match and section is not None:
            words = section.setdefault(match.groups(), [])
        elif line.startswith(".El"):
            words = None
        elif words is not None and not line.startswith("."):
            words.append(line)
    return {name: {option: plain(text) for option, text in rows.items()} for name, rows in found.items()}


def main(root, plimsoll):
    report = Report(root)
    page = os.path.join(root, "man", "plimsoll.1")
    manual, looked_at = manual_options(page), 0
    for command in commands(plimsoll):
        if command not in manual:
            report.add(page, 0, f"has no .Ss {command}")
        for heading, rows in help_options(plimsoll, command).items():
            place = command if heading == "The answer" else heading
            there = manual.get(place, {})
            looked_at += len(rows)
            for option in sorted(rows.keys() | there.keys(), key=str):
                if rows.get(option) != there.get(option):
                    report.add(page, 0, f"{command}, {place}, {option}:\n  --help: {rows.get(option)}\n  manual: {there.get(option)}")
    report.finish(looked_at)


main(os.path.abspath(sys.argv[1]), sys.argv[2])
