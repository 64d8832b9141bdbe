"""Fails on a manual page that mandoc has a word to say about. usage: man.py ROOT

SPDX-License-Identifier: MIT
"""
import os
import subprocess
import sys

from house import Report


def main(root):
    report = Report(root)
    folder = os.path.join(root, "man")
    pages = sorted(os.path.join(folder, name) for name in os.listdir(folder))
    for page in pages:
        run = subprocess.run(["mandoc", "-T", "lint", "-W", "style", page], capture_output=True, text=True, check=False)
        if run.returncode != 0 or run.stdout or run.stderr:
            report.add(page, 1, run.stdout + run.stderr)
    report.finish(len(pages))


main(os.path.abspath(sys.argv[1]))
