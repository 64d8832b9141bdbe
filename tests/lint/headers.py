"""Fails on a public header that does not compile alone or shows a function without its contract.

usage: headers.py ROOT COMPILER
SPDX-License-Identifier: MIT
"""
import os
import re
import subprocess
import sys

from house import Report, c_files

PUBLIC = re.compile(r"^\s*(PLM_API\b.*|PLM_API)$")


def undocumented(lines):
    """Line numbers of PLM_API declarations that no comment ends right above."""
    for number, line in enumerate(lines, 1):
        if PUBLIC.match(line) and (number < 2 or not lines[number - 2].rstrip().endswith("*/")):
            yield number


def main(root, compiler):
    report = Report(root)
    headers = c_files(root, "include")
    for path in headers:
        lines = open(path, encoding="utf-8").read().splitlines()
        for number in undocumented(lines):
            report.add(path, number, "a public function without a comment right above it")
        run = subprocess.run([compiler, "-std=c11", "-Wall", "-Wextra", "-Werror", "-fsyntax-only", "-x", "c",
                              "-I", os.path.join(root, "include"), "-include", path, os.devnull],
                             capture_output=True, text=True, check=False)
        if run.returncode != 0:
            report.add(path, 1, "does not compile alone:\n" + run.stderr)
    report.finish(len(headers))


main(os.path.abspath(sys.argv[1]), sys.argv[2])
