"""Fails on what the house does not want to see in a file. usage: style.py ROOT

SPDX-License-Identifier: MIT
"""
import os
import re
import sys

from house import Floors, Report, c_files, first_comment

TOP = {"src", "include", "tests", "samples", "man", "CMakeLists.txt", "README.md", "DEVELOPERS.md", "LICENSE"}
VAGUE = re.compile(r"(^|[_-])(util|utils|common|misc|helper|helpers|handle|process)([_.-]|$)")
OWN_T = re.compile(r"^\s*(typedef\b.*\b\w+_t\s*;|\}\s*\w+_t\s*;)")
# Functions that the library must not call: output, exit, environment, locale, clock, and what reads numbers by locale.
LIBRARY_BANS = re.compile(r"(?<![\w.>])(printf|fprintf|vprintf|vfprintf|puts|putchar|perror|exit|_exit|abort|getenv|setlocale|"
                          r"time|localtime|system|stdout|stderr|signal|errx?|warnx?|syslog)\s*(\(|\b(?=[,)]))")
# The command line prints by cli/print.h alone, which makes text plain; the line of progress holds words of ours and erases itself.
PRINT_BANS = re.compile(r"(?<![\w.>])(printf|fprintf|vprintf|vfprintf|puts|fputs|putchar|putc|fputc|fwrite|perror)\s*\(")
PRINTERS = {"src/cli/print.c", "src/cli/progress.c"}
# What passes text on as it is: the text itself, colours, and a page that was made plain before.
RAW = re.compile(r"(?<!\w)(plmi_text_add_raw)\s*\(")
RAW_ADDERS = ("src/base/text.", "src/report/output/page.c", "src/report/handover/handover.c", "src/report/handover/text.c")
# Functions that nobody calls.
ALL_BANS = re.compile(r"(?<![\w.>])(gets|strcpy|strcat|sprintf|vsprintf|strtod|strtof|atof|atoi|atol|scanf|sscanf|fscanf|"
                      r"strtok|alloca|tmpnam|mktemp)\s*\(")
FLOAT_FORMAT = re.compile(r'printf\s*\(.*"[^"]*%[-+ #0-9.*]*l?[aefgAEFG]')
# By name: what people write, and what of it is data where cases stand.
WRITTEN = re.compile(r"(^[^.]+|\.(c|h|def|py|cmake|in|txt|md|[1-9]))$")
DATA = re.compile(r"/(want\.\w+|cmd|[^/]*\.(txt|csv|uddf|xml))$")
LITERALS = re.compile(r'"(?:\\.|[^"\\])*"|\'(?:\\.|[^\'\\])*\'')


def code_lines(text):
    """(number, line, line without literals) with comments blanked."""
    blank = lambda match: re.sub(r"[^\n]", " ", match.group())
    text = re.sub(r'/\*.*?\*/|//[^\n]*|("(?:\\.|[^"\\\n])*")',
                  lambda m: m.group() if m.group(1) else blank(m), text, flags=re.DOTALL)
    for number, line in enumerate(text.splitlines(), 1):
        yield number, line, LITERALS.sub('""', line)


def guard_of(root, path):
    parts = os.path.relpath(path, root)[:-2].split(os.sep)
    if parts[0] == "include":
        words = parts[2:]
    else:
        words = parts[1:]
    return "PLM_" + re.sub(r"\W", "_", "_".join(words)).upper() + "_H"


def look_at_c(root, path, report):
    text = open(path, encoding="utf-8").read()
    relative = os.path.relpath(path, root)
    opening = first_comment(text)
    if "SPDX-License-Identifier: MIT" not in opening:
        report.add(path, 1, "does not open with a comment that holds SPDX-License-Identifier: MIT")
    elif len(opening.split()) < 10:
        report.add(path, 1, "does not say what it is for")
    if path.endswith(".h") and f"#ifndef {guard_of(root, path)}\n#define {guard_of(root, path)}\n" not in text:
        report.add(path, 1, f"has no guard {guard_of(root, path)}")
    in_library = relative.startswith(("src/", "include/")) and not relative.startswith("src/cli/")
    printer = relative in PRINTERS or not relative.startswith("src/cli/")
    raw = relative.startswith(RAW_ADDERS) or not relative.startswith("src/")
    in_house = relative.startswith(("src/", "include/"))
    for number, line, bare in code_lines(text):
        bare = bare.replace("format(printf,", "")
        if OWN_T.match(bare):
            report.add(path, number, "a type name of ours ends in _t")
        for bans in ([LIBRARY_BANS] if in_library else []) + ([] if printer else [PRINT_BANS]) + ([] if raw else [RAW]) + [ALL_BANS]:
            banned = bans.search(bare)
            if banned:
                report.add(path, number, f"{banned.group(1)} is not used here")
        if in_house and FLOAT_FORMAT.search(line):
            report.add(path, number, "a float is printed by a locale's rules")


def look_at_any(path, report):
    relative = os.path.relpath(path, report.root)
    name = os.path.basename(path)
    if VAGUE.search(os.path.splitext(name)[0]):
        report.add(path, 0, "the name says nothing")
    data = open(path, "rb").read()
    cmake = name == "CMakeLists.txt" or name.endswith(".cmake")
    for number, line in enumerate(data.decode("utf-8", "replace").splitlines(), 1):
        if "\t" in line:
            report.add(path, number, "a tab")
        if line != line.rstrip():
            report.add(path, number, "white space at the end")
        if cmake and "-ffast-" + "math" in line:
            report.add(path, number, "fast math")
        if cmake and re.search(r"file\s*\(\s*GLOB", line) and not relative.startswith("tests/"):
            report.add(path, number, "sources are listed, not found")


def written_files(root):
    """Every file that people write; data is kept to the byte and not looked at."""
    found = [os.path.join(root, name) for name in os.listdir(root) if not name.startswith((".", "build"))]
    found = [path for path in found if os.path.isfile(path)]
    for folder in ("src", "include", "tests", "man"):
        for base, folders, names in os.walk(os.path.join(root, folder)):
            folders[:] = [folder for folder in folders if folder != "__pycache__"]
            found += [os.path.join(base, name) for name in names if WRITTEN.search(name)]
    data = os.path.join(root, "tests", "case") + os.sep
    return sorted(path for path in found if not path.startswith(data) or not DATA.search(path))


def main(root):
    report = Report(root)
    for name in sorted(os.listdir(root)):
        if name not in TOP and not name.startswith((".", "build")):
            report.add(os.path.join(root, name), 0, "does not belong on the top level")
    Floors(root, report)
    for path in c_files(root, "src", "include", "tests"):
        look_at_c(root, path, report)
    files = written_files(root)
    for path in files:
        look_at_any(path, report)
    report.finish(len(files))


main(os.path.abspath(sys.argv[1]))
