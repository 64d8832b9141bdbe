"""Fails on a manual page that mandoc has a word to say about. usage: man.py ROOT

SPDX-License-Identifier: MIT
"""
import os
import re
import subprocess
import sys

from house import Report

OURS = re.compile(r"referenced manual not found: Xr plimsoll\b")

def main(root):
    report = Report(root)
    folder = os.path.join(root, "man")
    pages = sorted(os.path.join(folder, name) for name in os.listdir(folder))
    for page in pages:
        run = subprocess.run(["mandoc", "-T", "lint", "-W", "style", os.path.basename(page)], cwd=folder,
                             capture_output=True, text=True, check=False)
        # mandoc looks for the pages that one refers to where manuals are installed; ours need not be.
        words = [line for line in (run.stdout + run.stderr).splitlines() if not OURS.search(line)]
        if words:
            report.add(page, 1, "\n".join(words))
    report.finish(len(pages))


main(os.path.abspath(sys.argv[1]))
