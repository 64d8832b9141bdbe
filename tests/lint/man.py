"""Fails on a manual page that mandoc has a word to say about, and on a listing that is not the file it shows.

usage: man.py ROOT
A listing is a literal display behind a comment `.\\" listing FILE`, FILE from ROOT on.

SPDX-License-Identifier: MIT
"""
import os
import re
import subprocess
import sys

from house import Report

OURS = re.compile(r"referenced manual not found: Xr plimsoll\b")

LISTING = re.compile(r'^\.\\" listing (\S+)\n\.Bd -literal[^\n]*\n(.*?)^\.Ed$', re.MULTILINE | re.DOTALL)


def look_at_listings(root, page, report):
    for path, shown in LISTING.findall(open(page, encoding="utf-8").read()):
        text = re.sub(r"^\\&", "", shown, flags=re.MULTILINE).replace("\\e", "\\")
        if text != open(os.path.join(root, path), encoding="utf-8").read():
            report.add(page, 1, f"its listing is not {path}")


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
        look_at_listings(root, page, report)
    report.finish(len(pages))


main(os.path.abspath(sys.argv[1]))
