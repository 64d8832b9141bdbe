"""Fails on C that clang-format would lay out otherwise, or on a statement without braces. usage: format.py ROOT CLANG_FORMAT

The style is .clang-format at the top. Debian's clang-format has no rule for braces, so that they are looked for here.
SPDX-License-Identifier: MIT
"""
import os
import re
import subprocess
import sys

from house import Report, c_files

VIOLATION = re.compile(r"^(.+?):(\d+):\d+: (?:error|warning): code should be clang-formatted")
CONTROL = re.compile(r"^\s*(?:\} )?(?:else )?(?:if|for|while) \(|^\s*(?:\} )?else$")
DO_END = re.compile(r"^\s*\} while \(")
NOT_CODE = re.compile(r'"(?:\\.|[^"\\])*"|\'(?:\\.|[^\'\\])*\'|/\*.*?\*/')


def layout(root, program, files, report):
    run = subprocess.run([program, "--dry-run", "-Werror", "-style=file", *files], cwd=root, capture_output=True,
                         text=True, check=False)
    seen = set()
    for line in run.stderr.splitlines():
        match = VIOLATION.match(line)
        if match and match.groups() not in seen:
            seen.add(match.groups())
            report.add(match.group(1), int(match.group(2)), "is not laid out by .clang-format")
    if run.returncode != 0 and not seen:
        report.add(root, 0, f"clang-format failed: {run.stderr.strip()[:200]}")


def end_of_head(lines, at):
    """The line on which the parentheses that open on line `at` are closed."""
    depth = 0
    while at < len(lines):
        depth += lines[at].count("(") - lines[at].count(")")
        if depth <= 0:
            return at
        at += 1
    return at - 1


def braces(path, report):
    text = open(path, encoding="utf-8").read()
    lines = [NOT_CODE.sub("", line).rstrip(" \\") for line in text.splitlines()]
    for number, line in enumerate(lines):
        if CONTROL.match(line):
            end = end_of_head(lines, number)
            if lines[end].endswith((")", "else")) and not DO_END.match(lines[end]):
                report.add(path, number + 1, "a statement without braces")


def main(root, program):
    report = Report(root)
    files = c_files(root, "src", "include", "tests")
    for first in range(0, len(files), 100):
        layout(root, program, files[first : first + 100], report)
    for path in files:
        braces(path, report)
    report.finish(len(files))


main(os.path.abspath(sys.argv[1]), sys.argv[2])
