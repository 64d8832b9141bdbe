"""Fails where a shared library shows other symbols than those that the public headers mark with PLM_API.

usage: exports.py ROOT SHARED_LIBRARY
SPDX-License-Identifier: MIT
"""
import os
import re
import subprocess
import sys

from house import Report, c_files

DECLARED = re.compile(r"^PLM_API\b[^;{]*?\b(\w+)\s*\(", re.MULTILINE)


def marked(root):
    """name -> header of every function that PLM_API marks."""
    found = {}
    for path in c_files(root, "include"):
        text = re.sub(r"/\*.*?\*/", "", open(path, encoding="utf-8").read(), flags=re.DOTALL)
        found.update((name, path) for name in DECLARED.findall(text))
    return found


def shown(library):
    out = subprocess.run(["nm", "-D", "--defined-only", library], check=True, capture_output=True, text=True).stdout
    return {line.split()[-1].split("@")[0] for line in out.splitlines()}


def main(root, library):
    report = Report(root)
    wanted, found = marked(root), shown(library)
    for name in sorted(found - set(wanted)):
        report.add(library, 0, f"shows {name}, which no public header marks")
    for name in sorted(set(wanted) - found):
        report.add(wanted[name], 0, f"{name} is not in the shared library")
    report.finish(min(len(wanted), len(found)))


main(os.path.abspath(sys.argv[1]), os.path.abspath(sys.argv[2]))
