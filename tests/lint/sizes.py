"""Fails on a file or a function that is too long, or a median that is. usage: sizes.py ROOT CTAGS

Caps: 600 lines a file (not where its opening comment says that it is a table), 80 lines a function.
Medians over src/: under 180 lines a .c file, under 20 lines a function.
SPDX-License-Identifier: MIT
"""
import os
import re
import statistics
import subprocess
import sys

from house import Report, c_files, first_comment

FILE_CAP, FUNCTION_CAP, FILE_MEDIAN, FUNCTION_MEDIAN = 600, 80, 180, 20
SPAN = re.compile(r"\tline:(\d+)\b.*\tend:(\d+)\b")


def function_spans(ctags, files):
    """(path, name, first line, lines) of every function, as ctags finds them."""
    out = subprocess.run([ctags, "--options=NONE", "-o", "-", "--languages=C", "--map-C=+.h", "--kinds-C=f",
                          "--fields=+ne", "--sort=no", "-L", "-"], input="\n".join(files), check=True,
                         capture_output=True, text=True).stdout
    spans = []
    for row in out.splitlines():
        match = SPAN.search(row)
        if match:
            name, path = row.split("\t")[:2]
            first, last = map(int, match.groups())
            spans.append((path, name, first, last - first + 1))
    return spans


def main(root, ctags):
    report = Report(root)
    files = c_files(root, "src", "include", "tests")
    house = os.path.join(root, "src") + os.sep
    lengths = []
    for path in files:
        text = open(path, encoding="utf-8").read()
        lines = text.count("\n")
        if path.startswith(house) and path.endswith(".c"):
            lengths.append(lines)
        if lines > FILE_CAP and not re.search(r"\btable\b", first_comment(text), re.IGNORECASE):
            report.add(path, lines, f"{lines} lines, cap {FILE_CAP}")
    spans = function_spans(ctags, files)
    for path, name, first, lines in spans:
        if lines > FUNCTION_CAP:
            report.add(path, first, f"{name} has {lines} lines, cap {FUNCTION_CAP}")
    ours = [span for span in spans if span[0].startswith(house)]
    file_median = statistics.median(lengths)
    function_median = statistics.median(span[3] for span in ours)
    print(f"src: {len(lengths)} .c files, median {file_median:g} lines (under {FILE_MEDIAN})")
    print(f"src: {len(ours)} functions, median {function_median:g} lines (under {FUNCTION_MEDIAN})")
    for path, name, first, lines in sorted(ours, key=lambda span: -span[3])[:10]:
        print(f"  {lines:3} {os.path.relpath(path, root)}:{first} {name}")
    if file_median >= FILE_MEDIAN:
        report.add(house, 0, "the median file is too long")
    if function_median >= FUNCTION_MEDIAN:
        report.add(house, 0, "the median function is too long")
    report.finish(len(files))


main(os.path.abspath(sys.argv[1]), sys.argv[2])
